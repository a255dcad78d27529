/** The sentences of an assembly step, the same on paper and in the terminal. */
import type { Car } from '../car/car.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';
import type { QuantityName } from '../quantity/quantity-table.ts';
import type { ApartStep } from './take-apart.ts';
import type { ParallelJoint } from '../topics/pack/closed-loop.ts';
import type { ContactMeeting } from '../topics/pack/contact-meeting.ts';
import type { AssemblyStep, Bridge, Expected } from './procedure.ts';
import { TOOL_LENGTH } from './procedure.ts';

/** Prints a number with its unit, as the reader likes it. */
export type Say = (si: number, quantity: QuantityName, options?: { readonly digits?: number; readonly rounding?: 'nearest' | 'up' | 'down' }) => string;

/** With its sign, because a meter shows one. What no meter shows is 0. */
export const signedVolts = (volts: number, say: Say): string => (Math.abs(volts) < 5e-3 ? say(0, 'voltage') : `${volts > 0 ? '+' : ''}${say(volts, 'voltage')}`);

/** `M1.pos (red) to M2.neg: +0.94 V` */
export function readingWords({ a, b, voltage }: Expected, say: Say): string {
  return `${a} (red) to ${b}: ${signedVolts(voltage, say)}`;
}

export function beforeWords({ joint: { a, b }, before, closesLoop, parallel }: AssemblyStep, say: Say): string {
  const read = before === undefined ? `${a} (red) to ${b}: no prediction, the network has no answer in this state` : readingWords({ a, b, voltage: before }, say);
  if (!closesLoop) return read;
  return parallel ? `${read}. ${parallelWords(parallel, say)}` : `${read}. The two ends hang together already: join them only at 0 V.`;
}

/** What flows when a loop of cells is closed, and how far apart its ends may stand. */
export function parallelWords(parallel: ParallelJoint, say: Say): string {
  const { length } = parallel.loop.modules;
  return `Closes a loop of ${length} ${length === 1 ? 'module' : 'modules'}. ${meetingWords(parallel, say, 'Join')}`;
}

/** Strings that contactors lay in parallel. */
export function contactWords({ strings: [fuller, emptier], contacts, parallel, notRead }: ContactMeeting, say: Say): string {
  const { difference, mayDiffer } = parallel;
  const meet = `Strings ${fuller} and ${emptier} meet when the last of ${contacts.join(', ')} closes, and no joint does it for them.`;
  const most = mayDiffer === undefined ? '' : ` Close them at ${say(mayDiffer.difference, 'voltage', { rounding: 'down' })} apart or less.`;
  if (notRead.length > 0) return `${meet} How far apart they stand is not known: read ${notRead.join(', ')} first.${most}`;
  return `${meet}${Math.abs(difference) < 5e-4 ? '' : ` ${fuller} is the fuller.`} ${meetingWords(parallel, say, 'Close them')}`;
}

/** Further apart than its loop bears. */
export function isTooFarApart(parallel: ParallelJoint | undefined): boolean {
  return parallel?.mayDiffer !== undefined && Math.abs(parallel.difference) > parallel.mayDiffer.difference;
}

/** @param does  what must not be done further apart */
function meetingWords(parallel: ParallelJoint, say: Say, does: 'Join' | 'Close them'): string {
  const { difference, differenceFrom, flow, mayDiffer } = parallel;
  const size = Math.abs(difference);
  const whose = differenceFrom === 'readings' ? 'By the modules’ readings' : 'By the charge of the file';
  const flows = flow === undefined ? 'the current that will flow is not known' : size < 5e-4 ? 'nothing will flow' : `${say(flow.current, 'current', { rounding: 'up' })} will flow at first, ${say(flow.heat, 'energy', { rounding: 'up' })} turn to heat, and after ${say(flow.settled, 'time', { rounding: 'up' })} a hundredth is left`;
  const most = mayDiffer === undefined ? '' : ` ${does} at ${say(mayDiffer.difference, 'voltage', { rounding: 'down' })} apart or less: more would drive over ${say(mayDiffer.current, 'current')} through ${mayDiffer.at} (${limitWords[mayDiffer.by]}).`;
  const warning = isTooFarApart(parallel) ? (does === 'Join' ? ' Do not join them like this.' : ' Not now: bring them together first.') : '';
  return `${whose} the ends stand ${say(size, 'voltage', { rounding: 'up' })} apart: ${flows}.${most}${warning}`;
}

const limitWords: Readonly<Record<NonNullable<ParallelJoint['mayDiffer']>['by'], string>> = { cells: 'what its cells may take for good', 'common practice': 'a fifth of its capacity an hour, common practice', fuse: 'its rating', cable: 'what the run may carry' };

export function afterWords({ after }: AssemblyStep, say: Say): string {
  return after === undefined ? 'nothing live hangs on this joint yet' : readingWords(after, say);
}

export function bridgeWords({ a, b, voltage, current, arcPower }: Bridge, say: Say): string {
  return `${a} to ${b}: ${say(voltage, 'voltage', { rounding: 'up' })}, ${say(current, 'current', { rounding: 'up' })}, arc up to ${say(arcPower, 'power', { rounding: 'up' })}`;
}

/** What another reading than the expected one means. */
export const wrongBefore = 'A module’s voltage before a joint, where next to nothing is expected: something joins the two ends already. Less than expected after it by twice a module’s voltage: that module is reversed. Stop.';

export const bridgeNote = (say: Say): string => `A tool of ${say(TOOL_LENGTH, 'length')} could lie across them; terminals whose places are not known count as near.`;

export function glovesWords(gloves: AssemblyStep['gloves'], voltageClass: 'A' | 'B'): string {
  if (gloves !== undefined) return `class ${gloves}`;
  return voltageClass === 'B' ? 'none is made for it: do not do this' : 'dry work gloves';
}

export function storedWords(stored: AssemblyStep['stored'], say: Say): string {
  return stored.map(({ part, voltage, energy }) => `${part} ${say(energy, 'energy', { rounding: 'up' })} at ${say(Math.abs(voltage), 'voltage', { rounding: 'up' })}`).join(', ');
}

export function coverWords({ cover, blanket }: Pick<AssemblyStep, 'cover' | 'blanket'>): string {
  return [...(cover.length > 0 ? [`cover on: ${cover.join(', ')}`] : []), ...(blanket.length > 0 ? [`cap or blanket over ${blanket.join(', ')}`] : [])].join('; ');
}

/** A reading must move by so much of what it was to show that a joint is apart. */
const TELLS = 0.02;

/**
 * What to measure before something is taken apart, and what shows that it is. Across a closed joint a meter reads 0 V whether the pack is
 * live or not, so the two ends of what hangs together are read, before and after.
 */
export function cutWords({ joint: { a, b }, after, joined, joinedReads, opensLoop }: ApartStep, say: Say): { readonly before: string; readonly after: string } {
  const loop = opensLoop ? ' It lies in a loop of cells: both ends stay live, and the voltage stays.' : '';
  const tells = joined !== undefined && joinedReads !== undefined && Math.abs(joinedReads - joined.voltage) > Math.max(1, TELLS * Math.abs(joined.voltage));
  const between = after === undefined ? `${a} to ${b}: no prediction, the network has no answer in this state` : readingWords({ a, b, voltage: after }, say);
  return {
    before: `${joined === undefined ? 'Nothing live hangs on it' : readingWords(joined, say)}; 0 A in a clamp meter around it.${loop}`,
    after: tells ? `${readingWords({ ...joined, voltage: joinedReads }, say)}; the voltage of before means that it is not apart. Between the ends: ${between}` : between,
  };
}

/** Points between which the capacitors are read before anything is taken apart. */
export function capacitorWords(car: Car): string {
  const links = [...car.parts.values()].flatMap(({ names, roles }) => (roles.dcLink ? [`${names.of(roles.dcLink.positive)} to ${names.of(roles.dcLink.negative)}`] : []));
  return links.length === 0 ? '' : links.join(', ');
}

/** @param wait  how long nothing active needs to 60 V [s]; undefined: not known, or nothing does it */
export function apartWords(car: Car, wait: number | undefined, say: Say): string {
  const points = capacitorWords(car);
  const volts = say(CLASS_A_HIGHEST, 'voltage');
  const waiting = wait === undefined ? 'wait' : `wait ${say(wait, 'time', { rounding: 'up' })}, as long as it takes with nothing active working,`;
  return `First everything off, charge plug out${points === '' ? '.' : `; ${waiting} and until a meter, tried on a known source before and after, reads below ${volts} at ${points}.`} Current in the clamp meter: stop, something still draws or charges.`;
}
