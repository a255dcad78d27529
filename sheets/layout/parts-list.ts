/** Parts and runs of the layout as schedules. */
import { area } from '../frame/page-size.ts';
import { fitted } from '../table/table.ts';
import type { Shown } from '../shown.ts';
import type { Cell, EntryRow, Row, Table } from '../table/table.ts';
import type { LayoutModel, LayoutPart } from './model.ts';

const three = (shown: readonly Shown[] | undefined): Cell[] => [0, 1, 2].map((axis) => shown?.[axis]);

export function partsTable({ parts }: LayoutModel): Table {
  const row = (part: LayoutPart): EntryRow => ({
    path: `parts.${part.name}`, label: `item ${part.item}, ${part.name}, ${part.kind}`,
    cells: [String(part.item), { text: part.name, face: 'strong' }, part.kind, ...three(part.shown.at), ...three(part.shown.size), part.shown.mass, part.level && { level: part.level }],
  });
  const group = (heading: string, members: readonly LayoutPart[]): Row[] => (members.length === 0 ? [] : [{ heading }, ...members.map(row)]);
  const of = (family: LayoutPart['family']): LayoutPart[] => parts.filter((part) => part.at !== undefined && part.family === family);
  return {
    columns: fitted([
      { head: 'Item', width: 12, align: 'end' }, { head: 'Part', width: 50 }, { head: 'Kind', width: 52 }, ...['Place x', 'y', 'z', 'Size x', 'y', 'z'].map((head) => ({ head, width: 22, align: 'end' as const })),
      { head: 'Mass', width: 30, align: 'end', sure: false }, { head: 'Stands at', width: 34 },
    ], area.width),
    rows: [
      ...group('No place given: not drawn', parts.filter(({ at, isBeside }) => at === undefined && !isBeside)),
      ...group('High voltage', of('high_voltage')), ...group('12 V and signals', of('low_voltage')), ...group('Boxes, frames, loads', of('mechanical')),
      ...group('Beside the vehicle: not drawn, no load on an axle', parts.filter(({ at, isBeside }) => at === undefined && isBeside)),
    ],
  };
}

export function runsTable({ runs, notDrawn }: LayoutModel): Table {
  return {
    columns: fitted([{ head: 'Run', width: 40 }, { head: 'From', width: 60 }, { head: 'To', width: 60 }, { head: 'Drawn', width: 60 }, { head: 'Length', width: 30, align: 'end' }], area.width),
    rows: [
      ...runs.map((run): EntryRow => ({ path: `runs.${run.name}`, cells: [{ text: run.name, face: 'strong' }, run.from, run.to, run.isRouted ? 'along its route' : 'straight: no route given', run.length] })),
      ...notDrawn.map((run): EntryRow => ({ path: `runs.${run.name}`, cells: [{ text: run.name, face: 'strong' }, run.from, run.to, 'not drawn: an end has no place', undefined] })),
    ],
  };
}
