/**
 * A plot over time: axes with round ticks, curves told apart by line type as well as colour, level lines, moments, marked points,
 * and labels that keep out of each other's way. Positions in SI; the axes (`axis.ts`) know the units.
 */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize, LINE } from '../lettering/letter-size.ts';
import { widthOf, wrap } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import type { Tone } from '../table/table.ts';
import type { Axis } from './axis.ts';
import { placeLabels } from './place-labels.ts';
import type { Box, Segment, Wanted } from './place-labels.ts';

export type LineType = 'solid' | 'dashed' | 'chain' | 'dotted';

export interface Plot {
  readonly time: Axis; readonly value: Axis;
  readonly curves: readonly { readonly name: string; readonly points: readonly (readonly [number, number])[]; readonly tone: Tone; readonly line: LineType }[];
  /** a line across at a value */
  readonly levels: readonly { readonly value: number; readonly text: string; readonly tone: Tone; readonly line: LineType }[];
  /** a line up at a time */
  readonly moments: readonly { readonly time: number; readonly text: string; readonly tone: Tone; readonly line: LineType }[];
  readonly points: readonly { readonly time: number; readonly value: number; readonly text: string; readonly tone: Tone }[];
}

const dashes: Readonly<Record<LineType, string | undefined>> = { solid: undefined, dashed: '3 1.5', chain: '6 1.2 1 1.2', dotted: '0.8 1.2' };
/** room for ticks and labels of the axes [mm] */
const LEFT = 17;
const BELOW = 13;
const LABEL = 70;
const HEIGHT = letterSize.small * LINE;

/** x, y: top left corner of the whole; the labels of the axes are within `width` and `height` [mm]. */
export function TimePlot({ plot, x, y, width, height }: { readonly plot: Plot; readonly x: number; readonly y: number; readonly width: number; readonly height: number }): ReactElement {
  const palette = usePalette();
  const frame: Box = { x: x + LEFT, y: y + HEIGHT + 2, width: width - LEFT - 4, height: height - BELOW - HEIGHT - 2 };
  const across = (time: number): number => frame.x + ((time - plot.time.from) / (plot.time.to - plot.time.from)) * frame.width;
  const up = (value: number): number => frame.y + frame.height - ((value - plot.value.from) / (plot.value.to - plot.value.from)) * frame.height;
  const bottom = frame.y + frame.height;
  const right = frame.x + frame.width;
  const labels = labelsOf(plot, frame, across, up);
  const path = (points: readonly (readonly [number, number])[]): string => points.map(([time, value], index) => `${index === 0 ? 'M' : 'L'}${round(across(time))} ${round(up(value))}`).join(' ');
  return (
    <g>
      {plot.time.ticks.map(({ at, text }) => (
        <g key={`t${text}`}>
          <line x1={round(across(at))} y1={round(frame.y)} x2={round(across(at))} y2={round(bottom)} stroke={palette.hairline} strokeWidth={0.18} />
          <line x1={round(across(at))} y1={round(bottom)} x2={round(across(at))} y2={round(bottom + 1.2)} stroke={palette.ink} strokeWidth={0.25} />
          <Letters x={across(at)} y={bottom + 4.6} size="small" align="middle" text={text} />
        </g>
      ))}
      {plot.value.ticks.map(({ at, text }) => (
        <g key={`v${text}`}>
          <line x1={round(frame.x)} y1={round(up(at))} x2={round(right)} y2={round(up(at))} stroke={palette.hairline} strokeWidth={0.18} />
          <line x1={round(frame.x - 1.2)} y1={round(up(at))} x2={round(frame.x)} y2={round(up(at))} stroke={palette.ink} strokeWidth={0.25} />
          <Letters x={frame.x - 2} y={up(at) + 1.05} size="small" align="end" text={text} />
        </g>
      ))}
      <path d={`M${round(frame.x)} ${round(frame.y)} V${round(bottom)} H${round(right)}`} fill="none" stroke={palette.ink} strokeWidth={0.35} />
      <Letters x={x} y={y + letterSize.small} size="small" fill={palette.muted} text={withUnit(plot.value)} />
      <Letters x={right} y={bottom + 9.6} size="small" align="end" fill={palette.muted} text={withUnit(plot.time)} />
      {plot.levels.map(({ value, text, tone, line }) => <line key={text} x1={round(frame.x)} y1={round(up(value))} x2={round(right)} y2={round(up(value))} stroke={palette[tone]} strokeWidth={0.3} strokeDasharray={dashes[line]} />)}
      {plot.moments.map(({ time, text, tone, line }) => <line key={text} x1={round(across(time))} y1={round(frame.y)} x2={round(across(time))} y2={round(bottom)} stroke={palette[tone]} strokeWidth={0.3} strokeDasharray={dashes[line]} />)}
      {plot.curves.map(({ name, points, tone, line }) => <path key={name} d={path(points)} fill="none" stroke={palette[tone]} strokeWidth={0.7} strokeDasharray={dashes[line]} strokeLinejoin="round" />)}
      {plot.points.map(({ time, value, text, tone }) => <circle key={text} cx={round(across(time))} cy={round(up(value))} r={1.1} fill={palette.sheet} stroke={palette[tone]} strokeWidth={0.5} />)}
      {labels.map(({ box, lines, tone, anchor }) => (
        <g key={lines.join(' ')}>
          {anchor && <path d={leader(anchor, box)} fill="none" stroke={palette[tone]} strokeWidth={0.18} />}
          <rect x={round(box.x - 0.4)} y={round(box.y - 0.2)} width={round(box.width + 0.8)} height={round(box.height)} fill={palette.sheet} />
          {lines.map((text, index) => <Letters key={index} x={box.x} y={box.y + index * HEIGHT + letterSize.small * 0.95} size="small" fill={palette[tone]} text={text} />)}
        </g>
      ))}
    </g>
  );
}

const withUnit = ({ label, unit }: Axis): string => (unit === '' ? label : `${label} [${unit}]`);

interface Label { readonly box: Box; readonly lines: readonly string[]; readonly tone: Tone; /** the point it belongs to */ readonly anchor: { readonly x: number; readonly y: number } | undefined }

/** Points first: they have the least room to move; then moments, levels, curves. */
function labelsOf(plot: Plot, frame: Box, across: (time: number) => number, up: (value: number) => number): readonly Label[] {
  const bottom = frame.y + frame.height;
  const lines: Segment[] = [
    ...plot.curves.flatMap(({ points }) => points.slice(1).map(([time, value], index) => { const [before, was] = points[index]!; return { x1: across(before), y1: up(was), x2: across(time), y2: up(value) }; })),
    ...plot.levels.map(({ value }) => ({ x1: frame.x, y1: up(value), x2: frame.x + frame.width, y2: up(value) })),
    ...plot.moments.map(({ time }) => ({ x1: across(time), y1: frame.y, x2: across(time), y2: bottom })),
    ...plot.points.flatMap(({ time, value }) => [{ x1: across(time) - 1.4, y1: up(value), x2: across(time) + 1.4, y2: up(value) }]),
  ];
  const wanted: (Wanted & { lines: readonly string[]; tone: Tone; anchor: Label['anchor'] })[] = [];
  const want = (text: string, tone: Tone, anchor: Label['anchor'], places: (width: number, height: number) => readonly { x: number; y: number }[]): void => {
    const broken = wrap(text, Math.min(LABEL, frame.width * 0.6), letterSize.small);
    const [width, height] = [Math.max(...broken.map((line) => widthOf(line, letterSize.small))), broken.length * HEIGHT];
    wanted.push({ width, height, candidates: places(width, height), lines: broken, tone, anchor });
  };
  for (const { time, value, text, tone } of plot.points) {
    const at = { x: across(time), y: up(value) };
    want(text, tone, at, (width, height) => [4, 8, 13, 20, 30, 42].flatMap((far) => [[1, 1], [1, -1], [-1, 1], [-1, -1], [1, 0.2], [-1, 0.2]].map(([dx, dy]) => ({ x: dx! > 0 ? at.x + far * 0.7 : at.x - far * 0.7 - width, y: dy! > 0 ? at.y + far * dy! : at.y + far * dy! - height }))));
  }
  for (const { time, text, tone } of plot.moments) {
    const at = across(time);
    want(text, tone, undefined, (width, height) => [0.94, 0.5, 0.35, 0.65, 0.2, 0.8, 0.03].flatMap((share) => [{ x: at + 1.5, y: frame.y + share * (frame.height - height) }, { x: at - 1.5 - width, y: frame.y + share * (frame.height - height) }]));
  }
  for (const { value, text, tone } of plot.levels) {
    const at = up(value);
    want(text, tone, undefined, (width, height) => [0.99, 0.8, 0.6, 0.4, 0.2, 0.01].flatMap((share) => [{ x: frame.x + share * (frame.width - width), y: at - height - 0.6 }, { x: frame.x + share * (frame.width - width), y: at + 1 }]));
  }
  for (const { name, points, tone } of plot.curves) {
    want(name, tone, undefined, (width, height) => [0.35, 0.5, 0.65, 0.2, 0.8, 0.95].flatMap((share) => {
      const point = points[Math.round(share * (points.length - 1))] ?? [plot.time.from, plot.value.from];
      const at = { x: across(point[0]), y: up(point[1]) };
      return [2, 5, 9].flatMap((far) => [{ x: at.x + far, y: at.y + far * 0.4 }, { x: at.x - far - width, y: at.y - height - far * 0.4 }]);
    }));
  }
  const inner = { x: frame.x + 1, y: frame.y - HEIGHT, width: frame.width - 1, height: frame.height + HEIGHT - 0.5 };
  return placeLabels(wanted, lines, inner).map((box, index) => { const { lines: broken, tone, anchor } = wanted[index]!; return { box, lines: broken, tone, anchor }; });
}

/** From a point to the nearest place on the edge of its label. */
function leader(anchor: { readonly x: number; readonly y: number }, box: Box): string {
  const x = Math.min(Math.max(anchor.x, box.x), box.x + box.width);
  const y = Math.min(Math.max(anchor.y, box.y), box.y + box.height);
  return `M${round(anchor.x)} ${round(anchor.y)} L${round(x)} ${round(y)}`;
}
