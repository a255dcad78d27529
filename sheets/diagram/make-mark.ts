/** Gives a node of a diagram its size and the places of what is in it, from the text that it has to hold. */
import type { Level } from '../../core/findings/finding.ts';
import { LINE, letterSize } from '../lettering/letter-size.ts';
import { widthOf, wrap } from '../lettering/measure.ts';
import { HALF_HEIGHT, isInLine, reachOf, SQUARE } from '../symbols/size.ts';
import type { Side } from './graph.ts';
import type { Mark, MarkGround, MarkLine, MarkPort, SymbolShown, Voltage } from './mark.ts';

/** from one small line to the next [mm] */
export const STEP = letterSize.small * LINE;
/** from one line of a name to the next [mm] */
export const NAME_STEP = letterSize.body * LINE;
/** from port to port down the side of a box or bar [mm] */
const PORT_STEP = 6;
/** widths grow in steps, so that an edited number seldom moves a drawing [mm] */
const GRAIN = 4;
/** of a run that ends at the bodywork, with its lettering [mm] */
export const GROUND_HEIGHT = 11;
/** from the axis to the foot of a sign of the chassis with its lettering, where it hangs at the side of a symbol [mm] */
export const GROUND_BELOW = 8.6;
const LEVEL = 4.6;

export interface PortSpec { readonly id: string; readonly point: string; readonly name: string; readonly side: Side; readonly voltage: Voltage }
export type GroundSpec = Omit<MarkGround, 'x'> & { readonly name: string; readonly side: Side };

export interface MarkSpec {
  readonly id: string; readonly part: string; readonly path: string; readonly label: string; readonly title: string;
  readonly voltage: Voltage; readonly symbol: SymbolShown; readonly lines: readonly MarkLine[];
  readonly level?: Level | undefined; readonly isOff: boolean; readonly referenceLines: number;
  readonly ports: readonly PortSpec[]; readonly grounds: readonly GroundSpec[];
  /** ports that the piece has, drawn or not: two make it something in a line */
  readonly portCount: number;
  /** names of two ports between which it has a capacitor */
  readonly capacitor?: readonly [string, string];
  /** least width [mm] */
  readonly column: number;
}

export const pieceText = ({ before = '', shown, after = '' }: MarkLine): string => `${before}${shown?.text ?? ''}${after}`;
export const lineText = (line: MarkLine): string => `${pieceText(line)}${line.next ? `, ${lineText(line.next)}` : ''}`;
const lineWidth = (line: MarkLine): number => widthOf(lineText(line), letterSize.small);
export const coarse = (width: number): number => Math.ceil(width / GRAIN - 1e-9) * GRAIN;
const widest = (lines: readonly MarkLine[]): number => Math.max(0, ...lines.map(lineWidth));
/** both lines of lettering beside the sign of the chassis */
export const groundWidth = (ground: Pick<MarkGround, 'run' | 'stud' | 'size'>): number => coarse(5 + Math.max(lineWidth({ ...ground.size, before: `${ground.run} ${ground.size.before ?? ''}` }) + 3.6, widthOf(ground.stud, letterSize.small)));
/** `to page 12, zone C4` */
const REFERENCE = 25;

/** A piece with two terminals of which no more than one lies on each side is drawn in the line; a bar as a bar; the rest as a box. */
export function makeMark(spec: MarkSpec): Mark {
  const formed = spec.symbol.name === 'bar' ? bar(spec) : spec.portCount <= 2 && isInLine(spec.symbol.name) && oneASide(spec) ? (isEnd(spec) ? end(spec) : inline(spec)) : box(spec);
  const { id, part, path, label, voltage, symbol, lines, level, isOff, referenceLines } = spec;
  return { id, part, path, label, voltage, symbol, lines, isOff, referenceLines, slots: [], ...(level === undefined ? {} : { level }), ...formed };
}

type Formed = Pick<Mark, 'capacitor' | 'form' | 'width' | 'height' | 'name' | 'axis' | 'body' | 'ports' | 'grounds'>;

function oneASide({ ports, grounds }: MarkSpec): boolean {
  const used = [...ports.map(({ side, point }) => ({ side, point })), ...grounds.map(({ side, point }) => ({ side, point }))];
  return (['west', 'east'] as const).every((side) => new Set(used.filter((one) => one.side === side).map(({ point }) => point)).size <= 1) && grounds.length <= 1 && new Set(used.map(({ side, point }) => `${side} ${point}`)).size === used.length;
}

/** Lettering beside the symbol takes half the height of lettering above and below it: a rail has many of these. */
const isEnd = ({ ports, grounds, portCount }: MarkSpec): boolean => portCount === 2 && grounds.length === 0 && ports.length > 0 && ports.every(({ side }) => side === 'west');

/** Left edge of the lettering beside a symbol. */
export const besideOf = (name: SymbolShown['name']): number => 2 * reachOf(name) + 5;

function end(spec: MarkSpec): Formed {
  const { title, level, lines, referenceLines, symbol } = spec;
  const beside = besideOf(symbol.name);
  const text = coarse(Math.max(widest(lines), titleWidth(title, level, 34), referenceLines > 0 ? REFERENCE : 0));
  const name = nameIn(title, text, level);
  const height = Math.max(2 * HALF_HEIGHT, name.length * NAME_STEP + (lines.length + referenceLines) * STEP + 0.4);
  const axis = height / 2;
  return { form: 'end', width: beside + text, height, name, axis, body: 0, ports: spec.ports.map((port): MarkPort => ({ ...port, y: axis })), grounds: [] };
}

function nameIn(title: string, width: number, level: Level | undefined): readonly string[] {
  return wrap(title, width - (level === undefined ? 0 : LEVEL), letterSize.body, 'strong');
}

/** Room that a title asks for: a long one is broken, a short one is not. */
const titleWidth = (title: string, level: Level | undefined, most: number): number => Math.min(most, widthOf(title, letterSize.body, 'strong') + (level === undefined ? 0 : LEVEL) + 1);

function inline(spec: MarkSpec): Formed {
  const { title, level, lines, referenceLines, symbol, column, grounds } = spec;
  const reach = reachOf(symbol.name);
  const ground = grounds[0];
  const tail = ground ? groundWidth(ground) + 2 : 0;
  const text = Math.max(column, widest(lines), titleWidth(title, level, 34), referenceLines > 0 ? REFERENCE : 0, 2 * reach + (tail > 0 ? 0 : 2));
  const width = coarse(tail > 0 ? Math.max(text, 2 * reach + 3 + tail) : text);
  const name = nameIn(title, width, level);
  const axis = name.length * NAME_STEP + HALF_HEIGHT + 0.6;
  const below = (lines.length + referenceLines) * STEP;
  const height = axis + (ground ? GROUND_BELOW : HALF_HEIGHT) + below + 0.8;
  const ports = spec.ports.map((port): MarkPort => ({ ...port, y: axis }));
  return { form: 'inline', width, height, name, axis, body: 0, ports, grounds: ground ? [{ ...ground, x: ground.side === 'east' ? 3 + 2 * reach : width - 3 - 2 * reach }] : [] };
}

function bar(spec: MarkSpec): Formed {
  const { title, level, lines, referenceLines, column } = spec;
  const isPlain = lines.length === 0;
  const width = coarse(Math.max(isPlain ? 8 : column, widest(lines), titleWidth(title, level, 28), referenceLines > 0 ? REFERENCE : 0));
  const name = nameIn(title, width, level);
  const sides = (['west', 'east'] as const).map((side) => spec.ports.filter((port) => port.side === side));
  const most = Math.max(1, ...sides.map((ports) => ports.length));
  const body = (most - 1) * PORT_STEP + (isPlain ? 3 : 6);
  const axis = name.length * NAME_STEP + 0.8;
  const ports = sides.flatMap((list) => list.map((port, index): MarkPort => ({ ...port, y: axis + (body * (index + 1)) / (list.length + 1) })));
  const grounds = spec.grounds.map((ground, index): MarkGround => ({ ...ground, x: width / 2 + index * 30 }));
  const height = axis + body + (lines.length + referenceLines) * STEP + 1 + (grounds.length > 0 ? GROUND_HEIGHT : 0);
  return { form: 'bar', width: grounds.length > 0 ? Math.max(width, width / 2 + (grounds.length - 1) * 30 + groundWidth(grounds[0]!)) : width, height, name, axis, body, ports, grounds };
}

const symbolBox = (name: SymbolShown['name']): { readonly width: number; readonly height: number } => {
  if (name === 'none' || name === 'unit' || name === 'bar') return { width: 0, height: 0 };
  if (name === 'drive') return { width: 29, height: SQUARE };
  if (name === 'heater') return { width: 18, height: 8 };
  return { width: SQUARE + 1, height: isInLine(name) ? 9 : SQUARE };
};

/** of a capacitor between two ports, with its room [mm] */
export const CAPACITOR = 5;

/** Left edge of the lettering in a box. */
export const INSET = 1.8;

function box(spec: MarkSpec): Formed {
  const { title, level, lines, referenceLines, symbol, column } = spec;
  const sides = { west: spec.ports.filter(({ side }) => side === 'west'), east: spec.ports.filter(({ side }) => side === 'east') };
  const named = (ports: readonly PortSpec[]): number => Math.max(0, ...ports.map(({ name }) => widthOf(name, letterSize.small)));
  const inner = symbolBox(symbol.name);
  const grounds = placeGrounds(spec.grounds);
  const across = named(sides.west) + named(sides.east) + (spec.capacitor ? CAPACITOR : 0) + (inner.width > 0 ? inner.width + 2.4 : 4) + 2 * INSET;
  const width = coarse(Math.max(column, across, widest(lines) + 2 * INSET, titleWidth(title, level, 40), referenceLines > 0 ? REFERENCE + 2 * INSET : 0, grounds.width));
  const name = nameIn(title, width, level);
  const axis = name.length * NAME_STEP + 0.6;
  const rows = Math.max(sides.west.length, sides.east.length);
  const upper = Math.max(rows * PORT_STEP + 2, inner.height > 0 ? inner.height + 2 : 0, 4);
  const body = upper + (lines.length + referenceLines) * STEP + (lines.length + referenceLines > 0 ? 1.4 : 0) + (grounds.placed.length > 0 ? STEP : 0);
  const ports = (['west', 'east'] as const).flatMap((side) => sides[side].map((port, index): MarkPort => ({ ...port, y: axis + (upper * (index + 1)) / (sides[side].length + 1) })));
  const [from, to] = (spec.capacitor ?? []).map((port) => ports.find(({ name: own, side }) => own === port && side === 'west')?.y);
  const capacitor = from === undefined || to === undefined ? {} : { capacitor: { x: INSET + named(sides.west) + 3, from, to } };
  return { form: 'box', ...capacitor, width, height: axis + body + (grounds.placed.length > 0 ? GROUND_HEIGHT : 0.6), name, axis, body, ports, grounds: grounds.placed };
}

/** Height of the upper part of a box, where ports and symbol are. */
export const upperOf = ({ body, lines, referenceLines, grounds }: Mark): number => body - (lines.length + referenceLines) * STEP - (lines.length + referenceLines > 0 ? 1.4 : 0) - (grounds.length > 0 ? STEP : 0);

function placeGrounds(grounds: readonly GroundSpec[]): { readonly placed: readonly MarkGround[]; readonly width: number } {
  let x = 5;
  const placed = grounds.map((ground): MarkGround => {
    const at = x;
    x += Math.max(groundWidth(ground), widthOf(ground.name, letterSize.small)) + 4;
    return { ...ground, x: at };
  });
  return { placed, width: placed.length === 0 ? 0 : x };
}
