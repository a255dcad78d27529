/**
 * The `d` of a path, read into lines and cubic curves. The PDF library has a reader of its own, but it draws quadratic curves
 * wrongly and drops what it cannot read without a word.
 */
import { arcToCurves } from './arc-to-curves.ts';

export type Segment =
  | readonly ['move', number, number]
  | readonly ['line', number, number]
  | readonly ['curve', number, number, number, number, number, number]
  | readonly ['close'];

const counts: Readonly<Record<string, number>> = { M: 2, L: 2, H: 1, V: 1, C: 6, S: 4, Q: 4, T: 2, A: 7, Z: 0 };
const token = /[\s,]*(?:([A-Za-z])|([-+]?(?:\d+\.?\d*|\.\d+)(?:[eE][-+]?\d+)?))/y;
/** the two flags of an arc may stand without a space between */
const flag = /[\s,]*([01])/y;

/**
 * All commands of SVG paths, absolute or relative.
 * @throws Error on what is no path
 */
export function readPath(d: string): Segment[] {
  const segments: Segment[] = [];
  let at = 0;
  let [x, y] = [0, 0];
  let [startX, startY] = [0, 0];
  /** last control point of a curve that a smooth curve mirrors, and its kind */
  let control: readonly [number, number] = [0, 0];
  let before = '';
  const wrong = (): Error => new Error(`path d="${d}" cannot be read at ${at}: “${d.slice(at, at + 12)}”`);
  const next = (pattern: RegExp, group: number): string | undefined => {
    pattern.lastIndex = at;
    const found = pattern.exec(d)?.[group];
    if (found !== undefined) at = pattern.lastIndex;
    return found;
  };
  const number = (isFlag = false): number => {
    const text = isFlag ? next(flag, 1) : next(token, 2);
    if (text === undefined) throw wrong();
    return Number(text);
  };
  let letter: string | undefined;
  while (d.slice(at).trim() !== '') {
    const read = next(token, 1);
    if (read !== undefined) letter = read;
    // further numbers after a move are lines; after a close there are none
    else if (letter === undefined || letter === 'Z' || letter === 'z') throw wrong();
    else if (letter === 'M') letter = 'L';
    else if (letter === 'm') letter = 'l';
    const command = letter.toUpperCase();
    const count = counts[command];
    if (count === undefined || (segments.length === 0 && command !== 'M')) throw wrong();
    const n = Array.from({ length: count }, (_, index) => number(command === 'A' && (index === 3 || index === 4))) as [number, number, number, number, number, number, number];
    const [dx, dy] = letter === command ? [0, 0] : [x, y];
    const mirrored = (kinds: string): readonly [number, number] => (kinds.includes(before) && before !== '' ? [2 * x - control[0], 2 * y - control[1]] : [x, y]);
    const curve = (x1: number, y1: number, x2: number, y2: number, toX: number, toY: number): void => { segments.push(['curve', x1, y1, x2, y2, toX, toY]); [x, y] = [toX, toY]; };
    const quadratic = (cx: number, cy: number, toX: number, toY: number): void => {
      curve(x + (2 / 3) * (cx - x), y + (2 / 3) * (cy - y), toX + (2 / 3) * (cx - toX), toY + (2 / 3) * (cy - toY), toX, toY);
      control = [cx, cy];
    };
    switch (command) {
      case 'M': [x, y] = [n[0] + dx, n[1] + dy]; [startX, startY] = [x, y]; segments.push(['move', x, y]); break;
      case 'L': [x, y] = [n[0] + dx, n[1] + dy]; segments.push(['line', x, y]); break;
      case 'H': x = n[0] + dx; segments.push(['line', x, y]); break;
      case 'V': y = n[0] + dy; segments.push(['line', x, y]); break;
      case 'C': curve(n[0] + dx, n[1] + dy, n[2] + dx, n[3] + dy, n[4] + dx, n[5] + dy); control = [n[2] + dx, n[3] + dy]; break;
      case 'S': { const [x1, y1] = mirrored('CS'); curve(x1, y1, n[0] + dx, n[1] + dy, n[2] + dx, n[3] + dy); control = [n[0] + dx, n[1] + dy]; break; }
      case 'Q': quadratic(n[0] + dx, n[1] + dy, n[2] + dx, n[3] + dy); break;
      case 'T': quadratic(...mirrored('QT'), n[0] + dx, n[1] + dy); break;
      case 'A': {
        const curves = arcToCurves([x, y], { rx: n[0], ry: n[1], turn: n[2], large: n[3] === 1, clockwise: n[4] === 1 }, [n[5] + dx, n[6] + dy]);
        if (curves === undefined) segments.push(['line', n[5] + dx, n[6] + dy]);
        else for (const one of curves) curve(...one);
        [x, y] = [n[5] + dx, n[6] + dy];
        break;
      }
      case 'Z': [x, y] = [startX, startY]; segments.push(['close']); break;
    }
    before = command;
  }
  return segments;
}
