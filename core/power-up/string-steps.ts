/** Strings that contactors lay in parallel: how far apart they stand, read before the contacts of both close. */
import type { State } from '../car/state.ts';
import { printValue } from '../quantity/print-value.ts';
import { contactMeetings } from '../topics/pack/contact-meeting.ts';
import type { ContactMeeting } from '../topics/pack/contact-meeting.ts';
import { voltmeter } from './instruments.ts';
import type { Plan } from './plan.ts';
import { readMeasure } from './read-measure.ts';
import type { StepDraft } from './step.ts';

const by: Readonly<Record<NonNullable<ContactMeeting['parallel']['mayDiffer']>['by'], string>> = { cells: 'what its cells may take for good', 'common practice': 'a fifth of its capacity an hour, common practice', fuse: 'its rating', cable: 'what the run may carry' };

/** @param off  pack joined, contactors open */
export function stringSteps({ car, ask, strings, packVoltage }: Plan, off: State): StepDraft[] {
  return contactMeetings(car).flatMap(({ strings: [fuller, emptier], contacts, notRead, parallel: { loop, flow, mayDiffer } }): StepDraft[] => {
    const [one, other] = [fuller, emptier].map((name) => strings.find((string) => string.name === name));
    // of strings that are made of parallel ones inside, the two ends are not those of one string
    if (!one || !other || loop.modules.length !== one.modules.length + other.modules.length) return [];
    const volts = [one, other].map(({ positive, negative }) => readMeasure(car, ask, off, { is: 'voltage', a: positive, b: negative }));
    const meter = voltmeter(packVoltage);
    const said = (value: number | undefined): string => (value === undefined ? 'not known' : printValue(value, 'voltage', { digits: 4 }));
    const flows = flow === undefined ? 'What would flow is not known.' : `${printValue(flow.current, 'current', { rounding: 'up' })} would flow at first by the file, and ${printValue(flow.heat, 'energy', { rounding: 'up' })} turn to heat.`;
    return [{
      id: `join.strings.${fuller}.${emptier}`, phase: 'join', title: `Strings ${fuller} and ${emptier} against each other, before their contacts close`, about: [fuller, emptier], hazard: 'class_b', isHoldPoint: true, state: off,
      action: `Contactors open. The two readings before, with the same meter within a minute: ${one.positive} against ${one.negative} (${fuller}: ${said(volts[0])}), less ${other.positive} against ${other.negative} (${emptier}: ${said(volts[1])}).`,
      measure: { is: 'difference', first: [one.positive, one.negative], second: [other.positive, other.negative] },
      // one meter: its share of error is the same in both
      instrument: { name: 'the same multimeter, first reading less the second', category: meter.category, share: meter.share, fixed: Math.hypot(meter.fixed, meter.fixed) },
      ...(mayDiffer === undefined ? {} : { limit: { sense: 'between', value: -mayDiffer.difference, to: mayDiffer.difference, source: 'closed-form' } as const }),
      expect: mayDiffer === undefined ? 'A few millivolts a cell at the most.' : `Within ${printValue(mayDiffer.difference, 'voltage', { rounding: 'down' })}: then no more than ${printValue(mayDiffer.current, 'current')} flows through ${mayDiffer.at} (${by[mayDiffer.by]}) when the last of ${contacts.join(', ')} closes.`,
      instead: `Further apart: nothing closes the contacts of both. ${flows} Charge ${emptier} or discharge ${fuller}, by itself, until they differ by a few millivolts a cell; hours of rest; read every module again and write it into the file.`,
      unknown: notRead.map((name) => `parts.${name}.measured_voltage`),
    }];
  });
}
