/** Breaks a chain into rows that run to and fro, so that it can be followed without a crossing; rows into pages. */
import { letterSize } from '../lettering/letter-size.ts';
import { shorten } from '../lettering/measure.ts';
import type { ChainModel, PieceModel } from './model.ts';

/** [mm] */
export const MODULE_WIDTH = 30;
export const PART_WIDTH = 22;
export const BOX_HEIGHT = 24;
export const GAP = 14;
export const STUB = 30;
/** from row to row: box, voltages under it, air */
export const ROW_PITCH = 40;
/** a wrap sticks out of the row by this much */
export const TURN = 6;

export interface PlacedPiece {
  readonly piece: PieceModel;
  /** left edge and width of its box [mm] */
  readonly x: number; readonly width: number;
  /** runs that lead to it from the piece before, and the left edge of that gap */
  readonly runs: readonly PieceModel[];
  readonly gap: number;
  /** voltage of the gap before it, where it stands first in a row or after a module */
  readonly label: PieceModel['potential'];
}

export interface ChainRow {
  readonly pieces: readonly PlacedPiece[];
  /** drawn from left to right; every second row runs back */
  readonly isForward: boolean;
  readonly isFirst: boolean; readonly isLast: boolean;
  /** runs after the last piece of the chain */
  readonly tail: readonly PieceModel[];
  /** where the gap after its last piece begins (forward) or ends (back) */
  readonly end: number;
}

/** @param width  of the drawing [mm], wide enough for a stub, a gap and a module */
export function chainRows(chain: ChainModel, width: number): readonly ChainRow[] {
  const groups: { piece: PieceModel; runs: PieceModel[]; label: PieceModel['potential'] }[] = [];
  let runs: PieceModel[] = [];
  let potential = chain.start;
  // where it begins, the stub says the voltage
  let isNew = false;
  for (const piece of chain.pieces) {
    if (piece.sign === 'run') { runs.push(piece); continue; }
    groups.push({ piece, runs, label: isNew ? potential : undefined });
    isNew = piece.sign === 'module';
    potential = piece.potential;
    runs = [];
  }
  const rows: { groups: typeof groups; used: number }[] = [{ groups: [], used: STUB + TURN }];
  const need = ({ piece }: (typeof groups)[number]): number => GAP + widthOfPiece(piece);
  for (const group of groups) {
    let row = rows.at(-1)!;
    if (row.used + need(group) > width - TURN && row.groups.length > 0) rows.push(row = { groups: [], used: TURN });
    row.groups.push(group);
    row.used += need(group);
  }
  // the last row needs room for where the chain ends
  const last = rows.at(-1)!;
  if (last.used + GAP + STUB > width - TURN && last.groups.length > 1) { const moved = last.groups.pop()!; rows.push({ groups: [moved], used: 0 }); }
  return rows.map(({ groups: members }, index): ChainRow => {
    const isForward = index % 2 === 0;
    let at = TURN + (index === 0 ? STUB : 0);
    const pieces = members.map((group): PlacedPiece => {
      const piece = widthOfPiece(group.piece);
      const [gap, x] = [at, at + GAP];
      at = x + piece;
      const own = { piece: group.piece, runs: group.runs, width: piece, label: group.label ?? (group === members[0] && index > 0 ? chainPotentialBefore(groups, group) : undefined) };
      return isForward ? { ...own, x, gap } : { ...own, x: width - x - piece, gap: width - gap - GAP };
    });
    const isLast = index === rows.length - 1;
    return { pieces, isForward, isFirst: index === 0, isLast, tail: isLast ? runs : [], end: isForward ? at : width - at };
  });
}

const widthOfPiece = ({ sign }: PieceModel): number => (sign === 'module' ? MODULE_WIDTH : PART_WIDTH);

/** Where a row begins, its voltage is said again. */
function chainPotentialBefore(groups: readonly { readonly piece: PieceModel }[], group: { readonly piece: PieceModel }): PieceModel['potential'] {
  const index = groups.findIndex((one) => one === group);
  return groups[index - 1]?.piece.potential;
}

/** Voltage at the end of a chain. */
export function endPotential(chain: ChainModel): PieceModel['potential'] {
  return chain.pieces.length === 0 ? chain.start : chain.pieces.at(-1)!.potential;
}

/** Rows of one string that stand on one page. */
export interface ChainBand { readonly chain: ChainModel; readonly rows: readonly ChainRow[]; /** of its header [mm] */ readonly y: number; readonly isContinued: boolean; readonly continues: boolean }

export const BAND_HEAD = 12;

/** Bands of strings over pages; `first` is free on the first page, `next` on the others [mm]. At least one page. */
export function bandPages(chains: readonly ChainModel[], width: number, first: number, next: number): readonly (readonly ChainBand[])[] {
  const pages: ChainBand[][] = [[]];
  let used = 0;
  const room = (): number => (pages.length === 1 ? first : next);
  for (const chain of chains) {
    const rows = chainRows(chain, width);
    for (let at = 0; at < rows.length;) {
      let fits = Math.floor((room() - used - BAND_HEAD) / ROW_PITCH);
      if (fits < 1) { pages.push([]); used = 0; fits = Math.max(1, Math.floor((room() - BAND_HEAD) / ROW_PITCH)); }
      // rows run to and fro: an even number keeps the next page starting at the left
      let count = Math.min(fits, rows.length - at);
      if (at + count < rows.length && count > 1 && count % 2 === 1) count--;
      pages.at(-1)!.push({ chain, rows: rows.slice(at, at + count), y: used, isContinued: at > 0, continues: at + count < rows.length });
      used += BAND_HEAD + count * ROW_PITCH;
      at += count;
    }
  }
  return pages;
}

export const usedBy = (bands: readonly ChainBand[]): number => Math.max(0, ...bands.map(({ y, rows }) => y + BAND_HEAD + rows.length * ROW_PITCH));

/** A name within a piece's own width; the pieces' list has it in full. */
export const fit = (text: string, width: number, face: 'sans' | 'strong' = 'sans'): string => shorten(text, width, letterSize.small, face);
