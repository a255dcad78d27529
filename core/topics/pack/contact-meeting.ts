/**
 * Strings that no joint but contactors lay in parallel: what flows when the last of the contacts between them closes, and how far apart the
 * strings may stand then. Each two of them are a loop of their own.
 */
import type { Car, CarPart } from '../../car/car.ts';
import { stringsOf } from '../../car/strings.ts';
import type { Assembly } from '../../car/strings.ts';
import { closedLoop } from './closed-loop.ts';
import type { ParallelJoint } from './closed-loop.ts';

export interface ContactMeeting {
  /** first module of each of the two, from the negative end; the fuller first */
  readonly strings: readonly [string, string];
  /** parts with the contacts that part them while they are open */
  readonly contacts: readonly string[];
  /** modules without a reading: with any, how far apart the strings stand is not known */
  readonly notRead: readonly string[];
  /** `difference` is the first string less the second */
  readonly parallel: ParallelJoint;
}

/** @returns none where strings meet through runs alone: then a joint closes the loop, and its step says so */
export function contactMeetings(car: Car): readonly ContactMeeting[] {
  const parallels: (Assembly & { form: 'parallel' })[] = [];
  const walk = (assembly: Assembly): void => {
    if (assembly.form === 'parallel') parallels.push(assembly);
    if (assembly.form !== 'string') for (const member of assembly.members) walk(member.assembly);
  };
  for (const { assembly } of stringsOf(car).packs) if (assembly) walk(assembly);
  return parallels.flatMap(({ members }) => members.flatMap((one, at) => members.slice(at + 1).flatMap((other): ContactMeeting[] => {
    const contacts = [...new Set([...one.lead.through, ...other.lead.through])].filter((name) => car.parts.get(name)?.roles.switching);
    if (contacts.length === 0) return [];
    const sides = [one, other].map(({ assembly, isOpposed, lead }) => {
      const inside = wayThrough(assembly);
      return { name: firstOf(assembly), sign: isOpposed ? -1 : 1, assembly, resistance: inside.resistance + lead.resistance, modules: modulesOf(assembly), through: [...inside.through, ...lead.through] };
    });
    const notRead = sides.flatMap(({ modules }) => modules.filter(({ roles }) => roles.cells!.measuredVoltage === undefined).map(({ name }) => name));
    const isRead = notRead.length === 0;
    const volts = ({ assembly, sign }: (typeof sides)[number]): number => sign * voltageOf(assembly, ({ roles, cell }) => (isRead ? roles.cells!.measuredVoltage! : roles.cells!.series * (cell?.voltage ?? 0)));
    const [fuller, emptier] = volts(sides[0]!) >= volts(sides[1]!) ? [sides[0]!, sides[1]!] : [sides[1]!, sides[0]!];
    const through = [...new Set([...fuller.through, ...emptier.through])];
    const loop = { modules: [...fuller.modules, ...emptier.modules], fuses: through.flatMap((name) => { const part = car.parts.get(name); return part?.roles.protection ? [part] : []; }), runs: through.filter((name) => car.runs.has(name)) };
    return [{ strings: [fuller.name, emptier.name], contacts, notRead, parallel: closedLoop(car, loop, { difference: volts(fuller) - volts(emptier), differenceFrom: isRead ? 'readings' : 'computed', resistance: fuller.resistance + emptier.resistance }) }];
  })));
}

function modulesOf(assembly: Assembly): readonly CarPart[] {
  return assembly.form === 'string' ? assembly.string.modules.map(({ part }) => part) : assembly.members.flatMap((member) => modulesOf(member.assembly));
}

const firstOf = (assembly: Assembly): string => (assembly.form === 'string' ? assembly.string.name : firstOf(assembly.members[0]!.assembly));

/** From its negative end to its positive end [V]; of parallel ones inside it the mean. */
function voltageOf(assembly: Assembly, of: (part: CarPart) => number): number {
  if (assembly.form === 'string') return assembly.string.modules.reduce((sum, { part, isReversed }) => sum + (isReversed ? -1 : 1) * of(part), 0);
  const sum = assembly.members.reduce((total, member) => total + (member.isOpposed ? -1 : 1) * voltageOf(member.assembly, of), 0);
  return assembly.form === 'parallel' ? sum / assembly.members.length : sum;
}

/** Resistance from end to end [ohm], and what lies on the way. */
function wayThrough(assembly: Assembly): { readonly resistance: number; readonly through: readonly string[] } {
  if (assembly.form === 'string') {
    const { modules, between } = assembly.string;
    return { resistance: [...modules, ...between].reduce((sum, { resistance }) => sum + resistance, 0), through: between.flatMap(({ through }) => through) };
  }
  const ways = assembly.members.map((member) => { const way = wayThrough(member.assembly); const lead = 'lead' in member ? member.lead : { resistance: 0, through: [] }; return { resistance: way.resistance + lead.resistance, through: [...way.through, ...lead.through] }; });
  const joints = assembly.form === 'series' ? assembly.joints : { resistance: 0, through: [] };
  const resistance = assembly.form === 'parallel' ? 1 / ways.reduce((sum, way) => sum + 1 / way.resistance, 0) : ways.reduce((sum, way) => sum + way.resistance, joints.resistance);
  return { resistance, through: [...ways.flatMap(({ through }) => through), ...joints.through] };
}
