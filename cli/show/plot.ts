/** A curve in a terminal: two-by-four dots a character, axes with units. */

export interface PlotOptions {
  readonly columns: number; readonly rows: number;
  /** printed under the ends of the time axis, and beside the ends of the value axis */
  readonly timeLabel: (value: number) => string; readonly valueLabel: (value: number) => string;
  /** horizontal marks with a name */
  readonly marks: readonly { readonly value: number; readonly name: string }[];
}

/** Dots of a braille character by column and row. */
const DOTS = [[0x01, 0x02, 0x04, 0x40], [0x08, 0x10, 0x20, 0x80]] as const;

/**
 * @param points  at least two, time rising
 * @returns lines of text
 */
export function plotText(points: readonly { readonly time: number; readonly value: number }[], options: PlotOptions): string[] {
  const last = points[points.length - 1];
  const first = points[0];
  if (!first || !last || last.time <= first.time) return ['(no curve: nothing changes)'];
  const top = Math.max(...points.map(({ value }) => value), ...options.marks.map(({ value }) => value)) || 1;
  const cells = Array.from({ length: options.rows }, () => new Uint8Array(options.columns));
  const dot = (x: number, y: number): void => {
    const row = cells[options.rows - 1 - (y >> 2)];
    if (row && x >= 0 && x < options.columns * 2 && y >= 0) row[x >> 1] = (row[x >> 1] as number) | ((DOTS[x & 1] as readonly number[])[3 - (y & 3)] as number);
  };
  const heightOf = (value: number): number => Math.round((Math.max(0, value) / top) * (options.rows * 4 - 1));
  for (const { value } of options.marks) for (let x = 0; x < options.columns * 2; x += 4) dot(x, heightOf(value));
  let index = 0;
  let before: number | undefined;
  for (let x = 0; x < options.columns * 2; x++) {
    const time = first.time + ((last.time - first.time) * x) / (options.columns * 2 - 1);
    while (index < points.length - 2 && (points[index + 1] as { time: number }).time < time) index++;
    const [a, b] = [points[index] as { time: number; value: number }, points[index + 1] as { time: number; value: number }];
    const share = b.time === a.time ? 1 : (time - a.time) / (b.time - a.time);
    const y = heightOf(a.value + (b.value - a.value) * Math.min(1, Math.max(0, share)));
    const from = before === undefined ? y : before;
    for (let step = Math.min(from, y); step <= Math.max(from, y); step++) dot(x, step);
    before = y;
  }
  const labels = new Map<number, string>([[0, options.valueLabel(top)], [options.rows - 1, options.valueLabel(0)]]);
  const width = Math.max(...[...labels.values()].map((label) => label.length));
  const lines = cells.map((row, number) => `${(labels.get(number) ?? '').padStart(width)} ┤${String.fromCharCode(...Array.from(row, (bits) => 0x2800 + bits))}`);
  const end = options.timeLabel(last.time);
  const start = options.timeLabel(first.time);
  lines.push(`${' '.repeat(width)} └${'─'.repeat(options.columns)}`, `${' '.repeat(width + 2)}${start}${end.padStart(Math.max(1, options.columns - start.length))}`);
  for (const { value, name } of options.marks) lines.push(`${' '.repeat(width + 2)}dotted: ${options.valueLabel(value)} ${name}`);
  return lines;
}
