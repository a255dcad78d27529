/** The pack's schedules: figures, temperatures, modes, pieces of the chains. */
import { area } from '../frame/page-size.ts';
import { fitted } from '../table/table.ts';
import type { EntryRow, Table } from '../table/table.ts';
import { rangeOf } from './chain-drawing.tsx';
import type { ModeRow, PackModel, PackOnSheet } from './model.ts';

export function figuresTable({ figureHeads, figures }: PackOnSheet): Table {
  return {
    columns: [{ head: '', width: 58 }, ...figureHeads.map((head) => ({ head, width: 26, align: 'end' as const }))],
    rows: figures.map(({ what, values }): EntryRow => ({ cells: [what, ...values] })),
  };
}

/** @param width  [mm] */
export function temperaturesTable({ temperatures }: PackOnSheet, width: number): Table {
  return {
    columns: fitted([
      { head: '', width: 46 }, { head: 'Cells at', width: 20, align: 'end' }, { head: 'Charge', width: 18, align: 'end' }, { head: 'Voltage, nothing drawn', width: 28, align: 'end' },
      { head: 'Internal resistance', width: 26, align: 'end' }, { head: 'Short circuit at its ends', width: 28, align: 'end' }, { head: 'Power until the weakest cell is at its lowest', width: 38, align: 'end' },
    ], width),
    rows: temperatures.map((row): EntryRow => ({ cells: [row.when, row.temperature, row.charge, row.voltage, row.resistance, row.shortCircuit, row.power] })),
  };
}

export function modesTable({ modes }: PackModel): Table {
  const row = (mode: ModeRow): EntryRow => ({
    path: mode.path, label: `mode ${mode.mode}`,
    cells: [{ text: mode.mode, face: 'strong' }, mode.failed === undefined ? mode.meaning ?? '' : `no operating point: ${mode.failed}`, mode.lasts ?? 'continuous', mode.voltage, mode.current, mode.power, mode.heat, mode.lowestCell, mode.highestCell, mode.level && { level: mode.level }],
  });
  return {
    columns: fitted([
      { head: 'Mode', width: 34 }, { head: 'What it is', width: 96 }, { head: 'Lasts', width: 22 }, { head: 'Pack voltage', width: 24, align: 'end' }, { head: 'Current out of the cells', width: 28, align: 'end' }, { head: 'Power', width: 24, align: 'end' },
      { head: 'Heat in the modules', width: 26, align: 'end' }, { head: 'Lowest cell', width: 24, align: 'end' }, { head: 'Highest cell', width: 24, align: 'end' }, { head: 'Stands at', width: 30 },
    ], area.width),
    rows: modes.map(row),
  };
}

/** Every piece of every chain with its names in full. */
export function piecesTable({ packs }: PackModel): Table {
  return {
    columns: fitted([
      { head: 'Piece', width: 46 }, { head: 'Kind', width: 40 }, { head: 'From', width: 44 }, { head: 'To', width: 44 }, { head: 'Resistance', width: 24, align: 'end' }, { head: 'Reading', width: 34 }, { head: 'Off the mean', width: 22, align: 'end' },
      { head: 'Its end now', width: 24, align: 'end' }, { head: 'nominal', width: 22, align: 'end' }, { head: 'lowest to highest', width: 36, align: 'end' }, { head: 'Class', width: 24 }, { head: 'Stands at', width: 32 },
    ], area.width),
    rows: packs.flatMap(({ chains }, index) => chains.flatMap((chain) => [
      { heading: `${packs.length > 1 ? `Pack ${index + 1}, ` : ''}string ${chain.name}, from negative to positive` },
      ...chain.pieces.map((piece): EntryRow => ({
        path: piece.path, label: `${piece.kind} ${piece.name}`,
        cells: [
          { text: piece.name, face: 'strong' }, piece.isReversed ? `${piece.kind}, turned round` : piece.hasFuse && piece.sign !== 'fuse' ? `${piece.kind}, fuse inside` : piece.kind, piece.from, piece.to, piece.resistance,
          piece.cells ? piece.cells.reading && [piece.cells.reading, { text: piece.cells.reading.sure ?? '', tone: 'muted' }] : '', piece.cells ? piece.cells.deviation : '',
          piece.potential?.now, piece.potential?.nominal, piece.potential && rangeOf(piece.potential), piece.voltageClass && (piece.voltageClass === 'A' ? 'A, up to 60 V' : 'B, above 60 V'), piece.level && { level: piece.level },
        ],
      })),
    ])),
  };
}
