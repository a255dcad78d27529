/** Before anything is joined: vehicle, people, fire, zone, meters, and the pack split. */
import { gloveClassFor } from '../physics/glove-class.ts';
import { printValue } from '../quantity/print-value.ts';
import { category, knownResistor, testVoltageFor } from './instruments.ts';
import type { Plan } from './plan.ts';
import type { StepDraft } from './step.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';

export function prepareSteps(plan: Plan): StepDraft[] {
  const { car, packVoltage, disconnects, openRuns, perVolt } = plan;
  const isClassB = packVoltage > CLASS_A_HIGHEST;
  const volts = printValue(packVoltage, 'voltage', { rounding: 'up' });
  const gloves = isClassB ? gloveClassFor(packVoltage)?.name : undefined;
  const movers = [...car.parts.values()].filter(({ roles }) => roles.traction).map(({ name }) => name);
  const draft = (name: string, title: string, action: string, more: Partial<StepDraft> = {}): StepDraft => ({ id: `prepare.${name}`, phase: 'prepare', title, action, about: [], hazard: 'none', isHoldPoint: false, ...more });
  const resistor = knownResistor(perVolt, packVoltage);
  const steps: StepDraft[] = [];
  if (movers.length > 0) {
    steps.push(draft('vehicle', 'Wheels clear', `Vehicle level on stands that carry its weight, the wheels that ${movers.join(' and ')} ${movers.length > 1 ? 'turn' : 'turns'} clear of the ground, the others chocked. Nothing loose near wheels and shafts. It stays so until the last step.`, { about: movers, isHoldPoint: true, expect: 'Every driven wheel turns by hand.' }));
  }
  if (packVoltage > 0) {
    steps.push(
      draft('people', 'Two people who know what to do', `Nobody works alone. The second person knows how to pull ${disconnects.length > 0 ? disconnects.map(({ name }) => name).join(' and ') : 'the open joint apart'}, how to call help, and how to give first aid without touching somebody who is live. Rings, watches and chains off. ${gloves === undefined ? 'Leather gloves and eye protection: nothing here shocks, but it burns and welds.' : `Insulating gloves of class ${gloves} at least, tested and in date, with leather over them; face shield; cotton clothes.`}`, { isHoldPoint: true, expect: gloves === undefined ? `${volts} at the most: voltage class A.` : `${volts} at the most: voltage class B.` }),
      draft('fire', 'Fire', 'Outdoors or beside an open door, the vehicle free to be rolled away. Extinguisher at hand for the first seconds; a burning cell is cooled with much water, by the fire brigade. Know the number and say “battery of an electric vehicle”.'),
      draft('zone', 'Exclusion zone', 'Tape or cones two metres around the vehicle. Children, animals and onlookers outside. A sign that says what is being done.'),
      draft('meters', 'Meters and leads', `Multimeter ${category(packVoltage) ?? 'made for the pack’s voltage'} or better, with leads of the same category and shrouded tips; insulation tester with ${testVoltageFor(packVoltage, undefined)} V. Try the multimeter on a known source before and after every reading that says “0 V”. For isolation: a resistor of ${printValue(resistor, 'resistance')} that bears ${volts} and ${printValue(packVoltage ** 2 / resistor, 'power', { rounding: 'up' })}, on insulated leads.`, { isHoldPoint: true, expect: 'The meter shows the voltage of a known battery.', instead: 'Another meter. What a meter that was not tried says is worth nothing.' }),
      draft('pack-open', 'The pack is split', disconnects.length > 0
        ? `Pull ${disconnects.map(({ name }) => name).join(' and ')}, keep it in the pocket of whoever works. Leave ${openRuns.join(' and ')} off with its ends covered: so the string stays open even when the disconnect goes in for its interlock contact.`
        : `Leave ${openRuns.join(' and ') || 'one joint of each string'} off with its ends covered. There is no disconnect in the file: a string that can only be parted with a spanner cannot be parted in a hurry.`,
        { about: [...disconnects.map(({ name }) => name), ...openRuns], isHoldPoint: true, expect: 'Locked and tagged.', unknown: disconnects.length > 0 || !isClassB ? [] : ['parts: a service_disconnect'] }),
    );
  }
  return steps;
}
