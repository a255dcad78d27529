/** Whether the modules are joined as a battery: none loose, shorted or turned round, one kind of cell a string, two ends. */
import type { Car } from '../../car/car.ts';
import { stringsOf } from '../../car/strings.ts';
import type { Assembly, PackLayout, PackString } from '../../car/strings.ts';
import type { Check } from '../../findings/finding.ts';

export interface StringLayout {
  readonly name: string;
  /** from the negative end to the positive end */
  readonly modules: readonly string[];
  readonly reversed: readonly string[];
  /** runs and parts between module and module */
  readonly between: readonly (readonly string[])[];
  /** terminals at its ends */
  readonly negative: string; readonly positive: string;
  /** runs and parts that join its two ends; undefined: nothing does */
  readonly shortedBy: readonly string[] | undefined;
  /** number of its pack */
  readonly pack: number;
}

export function layoutOfString(string: PackString): StringLayout {
  return {
    name: string.name, modules: string.modules.map(({ part }) => part.name), reversed: string.modules.filter(({ isReversed }) => isReversed).map(({ part }) => part.name),
    between: string.between.map(({ through }) => through), negative: string.negative, positive: string.positive, shortedBy: string.shortedBy?.through, pack: string.pack,
  };
}

export function layoutChecks(car: Car, layout: PackLayout = stringsOf(car)): readonly Check[] {
  return [...sourceChecks(car, layout), ...moduleChecks(layout), ...layout.packs.flatMap(({ strings }) => strings.flatMap((string) => stringChecks(string, layout))), ...packChecks(layout)];
}

function sourceChecks(car: Car, { packs, unconnected, shorted, notCounted }: PackLayout): Check[] {
  const hasCells = packs.length + unconnected.length + shorted.length + notCounted.length > 0;
  const needsCells = [...car.parts.values()].some(({ ports }) => ports.some(({ carries }) => carries === 'high_voltage'));
  return [
    ...(hasCells || needsCells ? [{ code: 'pack.has-cells', about: [], path: 'parts', value: hasCells ? 1 : 0, limit: 1, sense: 'is_true' } satisfies Check] : []),
    ...notCounted.map(({ name, missing }): Check => ({ code: 'pack.module-counted', about: [name], sense: 'is_true', needs: missing.length > 0 ? missing : ['conditions.cell_temperature'] })),
  ];
}

function moduleChecks({ packs, unconnected, shorted }: PackLayout): Check[] {
  const isTrue = { limit: 1, sense: 'is_true' } as const;
  if (packs.length + unconnected.length + shorted.length === 0) return [];
  return [
    ...(unconnected.length === 0 ? [{ code: 'pack.modules-connected', about: [], path: 'parts', value: 1, ...isTrue } satisfies Check] : unconnected.map(({ name }): Check => ({ code: 'pack.modules-connected', about: [name], value: 0, ...isTrue }))),
    ...(shorted.length === 0
      ? [{ code: 'pack.module-not-shorted', about: [], path: 'parts', value: 1, ...isTrue } satisfies Check]
      : shorted.map(({ part, by }): Check => ({ code: 'pack.module-not-shorted', about: [part.name, ...by.through], value: 0, ...isTrue, details: { through: by.through.join(', ') } }))),
  ];
}

function stringChecks(string: PackString, layout: PackLayout): Check[] {
  const opposed = opposedStrings(layout);
  const names = string.modules.map(({ part }) => part.name);
  const modules = names.join(', ');
  const reversed = opposed.has(string) ? names : string.modules.filter(({ isReversed }) => isReversed).map(({ part }) => part.name);
  const types = new Map(string.modules.map(({ part }) => { const { cell, parallel } = part.roles.cells!; return [`${parallel} × ${cell}`, part.cell?.chemistry ?? '']; }));
  return [
    { code: 'pack.modules-not-reversed', about: names.slice(0, 1), value: reversed.length, limit: 0, sense: 'at_most', quantity: 'number', details: { modules, reversed: reversed.join(', ') } },
    { code: 'pack.string-not-shorted', about: names.slice(0, 1), value: string.shortedBy ? 0 : 1, limit: 1, sense: 'is_true', details: { modules, through: string.shortedBy?.through.join(', ') ?? '' } },
    {
      code: 'pack.one-cell-type', about: names.slice(0, 1), value: types.size, limit: 1, sense: 'at_most', quantity: 'number', details: { modules, types: [...types.keys()].join(', ') },
      ...(new Set(types.values()).size > 1 ? {} : { levelWhenBroken: 'watch' as const }),
    },
  ];
}

function packChecks({ packs }: PackLayout): Check[] {
  if (packs.length === 0) return [];
  const groups = packs.map(({ strings }) => strings.flatMap(({ modules }) => modules.map(({ part }) => part.name)).join(', ')).join(' | ');
  return [
    { code: 'pack.one-group', about: [packs[0]!.strings[0]!.name], value: packs.length, limit: 1, sense: 'at_most', quantity: 'number', details: { groups } },
    ...packs.flatMap(({ strings, assembly }): Check[] => [
      { code: 'pack.two-ends', about: [strings[0]!.name], value: assembly ? 1 : 0, limit: 1, sense: 'is_true', details: { strings: strings.map(({ name }) => name).join(', ') } },
      ...(assembly ? parallelsIn(assembly).map(seriesCountCheck) : []),
    ]),
  ];
}

export type Parallel = Extract<Assembly, { form: 'parallel' }>;

/** Every place where strings are parallel. */
export function parallelsIn(assembly: Assembly): readonly Parallel[] {
  if (assembly.form === 'string') return [];
  const inner = assembly.members.flatMap((member) => parallelsIn(member.assembly));
  return assembly.form === 'parallel' ? [assembly, ...inner] : inner;
}

export function stringsIn(assembly: Assembly): readonly PackString[] {
  return assembly.form === 'string' ? [assembly.string] : assembly.members.flatMap((member) => stringsIn(member.assembly));
}

/** First string of each branch of a parallel. */
export const branchNames = (parallel: Parallel): readonly string[] => parallel.members.map(({ assembly }) => stringsIn(assembly)[0]!.name);

function seriesCountCheck(parallel: Parallel): Check {
  const counts = parallel.members.map(({ assembly }) => seriesCount(assembly));
  const names = branchNames(parallel);
  return {
    code: 'pack.same-series-count', about: names, value: Math.max(...counts) - Math.min(...counts), limit: 0, sense: 'at_most', quantity: 'number',
    details: { counts: counts.map((count, index) => `${names[index]}: ${count}`).join(', ') },
  };
}

function seriesCount(assembly: Assembly): number {
  if (assembly.form === 'string') return assembly.string.modules.reduce((sum, { part, isReversed }) => sum + (isReversed ? -1 : 1) * part.roles.cells!.series, 0);
  const counts = assembly.members.map((member) => (member.isOpposed && assembly.form === 'series' ? -1 : 1) * seriesCount(member.assembly));
  return assembly.form === 'parallel' ? Math.max(...counts) : counts.reduce((sum, count) => sum + count, 0);
}

function opposedStrings({ packs }: PackLayout): ReadonlySet<PackString> {
  const opposed = new Set<PackString>();
  const visit = (assembly: Assembly, isOpposed: boolean): void => {
    if (assembly.form === 'string') { if (isOpposed) opposed.add(assembly.string); }
    else for (const member of assembly.members) visit(member.assembly, isOpposed !== member.isOpposed);
  };
  for (const { assembly } of packs) if (assembly) visit(assembly, false);
  return opposed;
}
