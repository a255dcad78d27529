/** Breaks a chain into rows that run to and fro, joints with their numbers between the pieces. */
import type { AssemblyChain, ChainPiece, NumberedJoint } from './model.ts';

/** [mm] */
export const MODULE_WIDTH = 26;
export const PART_WIDTH = 22;
export const BOX_HEIGHT = 13;
/** of one joint between two pieces */
export const JOINT = 16;
/** from row to row */
export const PITCH = 24;
/** a wrap sticks out of the row by this much */
export const TURN = 5;
export const BAND_HEAD = 11;

export interface PlacedJoint { readonly joint: NumberedJoint; /** left edge [mm] */ readonly x: number }
export interface PlacedPiece { readonly piece: ChainPiece; readonly x: number; readonly width: number }
export interface PlacedRow {
  readonly pieces: readonly PlacedPiece[]; readonly joints: readonly PlacedJoint[];
  /** drawn from left to right; every second row runs back */
  readonly isForward: boolean;
  /** where its line begins and ends, the further first in the direction of the chain [mm] */
  readonly from: number; readonly to: number;
}

type Item = { readonly piece: ChainPiece } | { readonly joint: NumberedJoint };
const widthOf = (item: Item): number => ('joint' in item ? JOINT : item.piece.sign === 'module' ? MODULE_WIDTH : PART_WIDTH);

/** @param width  of the drawing [mm]. Every piece and joint once and in order. */
export function chainRows({ pieces, tail }: AssemblyChain, width: number): readonly PlacedRow[] {
  const items: Item[] = [...pieces.flatMap((piece): Item[] => [...piece.before.map((joint) => ({ joint })), { piece }]), ...tail.map((joint) => ({ joint }))];
  const rows: Item[][] = [[]];
  let used = 2 * TURN;
  for (const item of items) {
    if (used + widthOf(item) > width && rows.at(-1)!.length > 0) { rows.push([]); used = 2 * TURN; }
    rows.at(-1)!.push(item);
    used += widthOf(item);
  }
  return rows.map((row, index): PlacedRow => {
    const isForward = index % 2 === 0;
    let at = TURN;
    const placed: { pieces: PlacedPiece[]; joints: PlacedJoint[] } = { pieces: [], joints: [] };
    for (const item of row) {
      const own = widthOf(item);
      const x = isForward ? at : width - at - own;
      if ('joint' in item) placed.joints.push({ joint: item.joint, x });
      else placed.pieces.push({ piece: item.piece, x, width: own });
      at += own;
    }
    return { ...placed, isForward, from: isForward ? TURN : width - TURN, to: isForward ? at : width - at };
  });
}

/** Rows of chains that stand on one page. */
export interface Band { readonly name: string; readonly rows: readonly PlacedRow[]; readonly y: number; readonly isContinued: boolean; readonly goesOn: boolean }

/** @param first, next  room on the first page and the others [mm]. At least one page. */
export function bandPages(chains: readonly AssemblyChain[], width: number, first: number, next: number): readonly (readonly Band[])[] {
  const pages: Band[][] = [[]];
  let used = 0;
  const room = (): number => (pages.length === 1 ? first : next);
  for (const chain of chains) {
    const rows = chainRows(chain, width);
    for (let at = 0; at < rows.length;) {
      let fits = Math.floor((room() - used - BAND_HEAD) / PITCH);
      if (fits < 1) { pages.push([]); used = 0; fits = Math.max(1, Math.floor((room() - BAND_HEAD) / PITCH)); }
      // rows run to and fro: an even number keeps the next page starting at the left
      let count = Math.min(fits, rows.length - at);
      if (at + count < rows.length && count > 1 && count % 2 === 1) count--;
      pages.at(-1)!.push({ name: chain.name, rows: rows.slice(at, at + count), y: used, isContinued: at > 0, goesOn: at + count < rows.length });
      used += BAND_HEAD + count * PITCH;
      at += count;
    }
  }
  return pages;
}

/** Air under a row that the last of a page does not need [mm]. */
const AIR = 6;

export const usedBy = (bands: readonly Band[]): number => Math.max(0, ...bands.map(({ y, rows }) => y + BAND_HEAD + rows.length * PITCH - AIR));
