/** halfshaft order BUILD */
import { words } from '../../catalogue/words.ts';
import { analyse } from '../../core/analyse.ts';
import { openStops } from '../../core/findings/open-stops.ts';
import { assemblyPlan } from '../../core/order/assembly-plan.ts';
import { jointHolds } from '../../core/order/joint-hold.ts';
import { passiveWait } from '../../core/power-up/passive-wait.ts';
import { openBuild } from '../open-build.ts';
import { orderJson } from '../show/order-json.ts';
import { orderText } from '../show/order-text.ts';
import { textWidth } from '../show/text-width.ts';
import type { Terminal } from '../terminal.ts';
import { WrongCall } from '../wrong-call.ts';

interface Options { readonly json?: boolean; readonly own?: boolean; readonly reverse?: boolean }

export function order(path: string, options: Options, terminal: Terminal): void {
  const { build, car, ask, findings } = analyse(openBuild(path).text, words);
  const which = options.own === true ? 'own' : 'best';
  const plan = assemblyPlan(car, which);
  if (plan.outcome === 'nothing') throw new WrongCall(`${path} has no high-voltage joint that its battery reaches, so there is nothing to order.`);
  if (plan.outcome === 'impossible') throw new WrongCall(`These joints wait for each other, so there is no order: ${plan.joints.join(', ')}. See after and before of the runs.`);
  const stops = openStops(findings);
  const wait = passiveWait(car, ask);
  const shown = { build, car, plan, which, isReverse: options.reverse === true, stops, holds: jointHolds(car, plan.steps, stops), wait: wait.is === 'bleeders' ? wait.wait : undefined } as const;
  terminal.print(options.json === true ? `${JSON.stringify(orderJson(shown), null, 2)}\n` : orderText(shown, textWidth(terminal)));
}
