/** One node of a diagram, ready to be drawn: plain data, in its own coordinates from its top left corner [mm]. */
import type { Level } from '../../core/findings/finding.ts';
import type { Shown } from '../shown.ts';
import type { SymbolName } from '../symbols/symbol-name.ts';
import type { Side } from './graph.ts';

export type Voltage = 'high' | 'low' | 'signal';

/** A line of lettering; a number in it stays a number that can be taken hold of. */
export interface MarkLine { readonly before?: string; readonly shown?: Shown; readonly after?: string; readonly isMuted?: boolean; /** in the same line, behind a comma */ readonly next?: MarkLine }

export interface MarkPort {
  /** id in the graph */
  readonly id: string;
  /** point of the car: `K1.in` */
  readonly point: string;
  /** as written inside a box */
  readonly name: string;
  readonly side: Side;
  readonly y: number;
  readonly voltage: Voltage;
}

/** A run from this part to the bodywork, drawn as the sign of the chassis at the part. */
export interface MarkGround {
  readonly run: string; readonly level?: Level;
  /** the part at the other end, and its point; absent: the run ends at the bodywork itself */
  readonly stud: string; readonly studPoint: string;
  readonly size: MarkLine;
  /** the port it leaves from */
  readonly point: string; readonly x: number;
  readonly isEarth: boolean;
}

export interface SymbolShown { readonly name: SymbolName; readonly isClosed?: boolean }

/** One place in a column of things in series. */
export interface Slot {
  readonly y: number; readonly height: number;
  /** what it is made of: one part, or modules in series */
  readonly parts: readonly string[];
  readonly names: readonly { readonly text: string; readonly path?: string }[];
  readonly symbol: SymbolShown;
  readonly lines: readonly MarkLine[];
  readonly level?: Level;
  /** points at its top and bottom */
  readonly top: string; readonly bottom: string;
  /** runs inside it */
  readonly inside: readonly { readonly text: string; readonly path?: string }[];
  /** the run from its bottom to the next one */
  readonly below: readonly WireText[];
}

export interface WireText { readonly run: string; readonly size: MarkLine; readonly level?: Level }

export interface Mark {
  readonly id: string;
  readonly part: string; readonly path: string;
  /** what a listener hears */
  readonly label: string;
  /** `end`: in the line, nothing goes on from it here; its lettering stands beside it */
  readonly form: 'inline' | 'end' | 'box' | 'bar' | 'column';
  readonly voltage: Voltage;
  readonly width: number; readonly height: number;
  /** name broken to the width */
  readonly name: readonly string[];
  readonly symbol: SymbolShown;
  /** where the symbol's axis lies; box: top of the box */
  readonly axis: number;
  /** box and bar: how tall */
  readonly body: number;
  /** box: a capacitor between two ports at the left, drawn at x from y to y */
  readonly capacitor?: { readonly x: number; readonly from: number; readonly to: number };
  readonly lines: readonly MarkLine[];
  readonly ports: readonly MarkPort[];
  readonly grounds: readonly MarkGround[];
  readonly level?: Level;
  readonly isOff: boolean;
  /** lines kept for where else the part stands */
  readonly referenceLines: number;
  readonly slots: readonly Slot[];
}
