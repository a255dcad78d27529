/** What the guided start writes: answers to plain questions -> edits of the build file. Blank answers are left out; findings ask for them. */
import type { Edit } from '../../core/build/edit-build.ts';
import { headText } from '../../core/build/starter.ts';
import type { Entered } from '../../core/build/write-value.ts';

export type Answers = Readonly<Record<string, string>>;

/** Answers that were given, as fields. */
function given(answers: Answers, fields: readonly string[]): Record<string, Entered> {
  return Object.fromEntries(fields.flatMap((field) => { const text = answers[field]?.trim() ?? ''; return text === '' ? [] : [[field, text] as const]; }));
}

/** Head of the file when it has none, then name and vehicle. */
export function vehicleEdits(text: string, answers: Answers): readonly Edit[] {
  const units = answers['units'] === 'imperial' ? 'imperial' : 'metric';
  const name = answers['name']?.trim() || 'My vehicle';
  const head: Edit[] = /^halfshaft:/m.test(text)
    ? [{ do: 'set', path: 'name', to: name }, { do: 'set', path: 'units', to: units }]
    : [{ do: 'splice', splices: [{ at: 0, removed: '', inserted: headText(name, units) }] }];
  const fields = given(answers, ['wheelbase', 'front_track', 'rear_track', 'front_axle_load', 'rear_axle_load', 'total_rating']);
  return [
    ...head,
    ...(answers['scenario']?.trim() ? [{ do: 'set', path: 'scenario', to: answers['scenario'].trim() } as const] : []),
    ...Object.entries(fields).map(([field, to]): Edit => ({ do: 'set', path: `vehicle.${field}`, to })),
  ];
}

/** One type of cell, and so many modules of it; `names` are those that are taken. */
export function packEdits(answers: Answers, names: ReadonlySet<string>): readonly Edit[] {
  const count = Math.min(200, Math.max(0, Math.trunc(Number(answers['modules'] ?? '') || 0)));
  const module = { cell: 'reclaimed', ...given(answers, ['series', 'parallel', 'mass', 'size']) };
  return [
    { do: 'set', path: 'cells.reclaimed', to: { chemistry: answers['chemistry'] ?? 'nmc', ...given(answers, ['capacity', 'resistance']) } },
    ...freeNames('M', count, names).map((name): Edit => ({ do: 'add_part', name, kind: 'battery_module', fields: module })),
  ];
}

export function driveEdits(answers: Answers, names: ReadonlySet<string>): readonly Edit[] {
  const isUnit = answers['drive'] !== 'inverter';
  const [name] = freeNames(isUnit ? 'DU' : 'INV', 1, names, true);
  if (name === undefined) return [];
  return [{ do: 'add_part', name, kind: isUnit ? 'drive_unit' : 'inverter', fields: given(answers, ['maximum_voltage', 'minimum_voltage', 'link_capacitance', 'continuous_current', 'peak_current', 'peak_power', 'mass', 'size']) }];
}

/** Bars from module to module: positive to the next one's negative, in the order of their names in the file. */
export function linkEdits(answers: Answers, modules: readonly string[], runs: ReadonlySet<string>): readonly Edit[] {
  const stock = { kind: 'busbar', ...given(answers, ['width', 'thickness']), material: answers['material'] ?? 'copper', insulation: answers['insulation'] ?? 'heat_shrink' };
  const names = freeNames('H', Math.max(0, modules.length - 1), runs);
  return [
    { do: 'set', path: 'stock.bar', to: stock },
    ...names.map((name, index): Edit => ({ do: 'add_run', name, from: `${modules[index]}.pos`, to: `${modules[index + 1]}.neg`, fields: { stock: 'bar', ...given(answers, ['length']) } })),
  ];
}

function freeNames(stem: string, count: number, taken: ReadonlySet<string>, bareFirst = false): readonly string[] {
  const names: string[] = bareFirst && count > 0 && !taken.has(stem) ? [stem] : [];
  for (let number = 1; names.length < count; number++) if (!taken.has(`${stem}${number}`)) names.push(`${stem}${number}`);
  return names;
}
