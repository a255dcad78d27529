/** Sizes of symbols [mm]: the axis runs from terminal to terminal through 0, 0. */
import type { SymbolName } from './symbol-name.ts';

/** half the length between the two terminals of a symbol in a line */
export const REACH = 7;
/** of the symbols that hold two in one */
export const LONG_REACH = 10;
/** half the height of the tallest */
export const HALF_HEIGHT = 4.6;
/** side of a converter's square, and of a machine's circle */
export const SQUARE = 13;

export const reachOf = (name: SymbolName): number => (name === 'precharge_resistor' ? LONG_REACH : name === 'bar' ? 2 : REACH);

/** Symbols that sit in a line between two terminals. The others stand inside a box. */
const inLine: ReadonlySet<SymbolName> = new Set(['battery', 'fuse', 'pyro_fuse', 'contactor', 'make_contact', 'break_contact', 'switch', 'disconnector', 'coil', 'resistor', 'precharge_resistor', 'shunt', 'diode', 'pins', 'lamp', 'pump', 'load']);
export const isInLine = (name: SymbolName): boolean => inLine.has(name);
