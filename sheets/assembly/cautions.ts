/** What hangs beside the bench while the battery is put together. */
import type { AssemblyPlan } from '../../core/order/assembly-plan.ts';
import { bridgeNote, wrongBefore } from '../../core/order/step-words.ts';
import { gloveClassFor } from '../../core/physics/glove-class.ts';
import { up } from '../shown.ts';
import type { Numbers } from '../shown.ts';
import { CLASS_A_HIGHEST } from '../../core/physics/voltage-class.ts';

export function cautionsOf({ steps }: Extract<AssemblyPlan, { outcome: 'planned' }>, { say }: Numbers): readonly { readonly title: string; readonly text: string }[] {
  const highest = Math.max(...steps.map(({ touchable }) => touchable));
  const bridges = steps.flatMap(({ bridge }) => bridge ?? []);
  const [current, power] = [Math.max(0, ...bridges.map((bridge) => bridge.current)), Math.max(0, ...bridges.map(({ arcPower }) => arcPower))];
  const gloves = highest > CLASS_A_HIGHEST ? gloveClassFor(highest) : undefined;
  return [
    { title: 'Nothing switches a cell off.', text: 'Qualified help, local codes and inspection decide what may be built. A second person, no jewellery, a face shield, one hand where one is enough, every terminal covered that is not being joined.' },
    { title: 'Gloves.', text: highest <= CLASS_A_HIGHEST ? `Up to ${say(highest, 'voltage', up)}: class A. Dry insulating gloves all the same; here it is the arc that hurts.` : gloves ? `Class ${gloves.name} (IEC 60903, up to ${say(gloves.directVoltage, 'voltage')} DC) from the first step of class B on, in date, blown up before use, leather over them.` : `No gloves are made for ${say(highest, 'voltage', up)}. Do not build it.` },
    ...(bridges.length > 0 ? [{ title: 'A dropped tool', text: `draws up to ${say(current, 'current', up)} and an arc of up to ${say(power, 'power', up)}. Insulated tools (IEC 60900), in a tray, never on the battery. ${bridgeNote((si, quantity, options) => say(si, quantity, options))}` }] : []),
    { title: 'Before every joint', text: `read between its two ends, with a meter tried on a known source before and after. ${wrongBefore}` },
    { title: 'Touchable', text: 'is counted with full cells, from a terminal to the chassis if the worst point of what hangs together leaks to it. Readings are at the charge of the file.' },
  ];
}
