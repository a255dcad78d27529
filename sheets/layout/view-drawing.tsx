/** Draws one view: parts from back to front, runs, names inside, balloons with their leaders. */
import type { ReactElement } from 'react';
import type { Level } from '../../core/findings/finding.ts';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { openLevel } from '../levels.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { Subject } from '../marks/subject.tsx';
import type { Palette } from '../palette.ts';
import { INNER_MARK } from './labels.ts';
import type { Balloon, InnerLabel } from './labels.ts';
import type { Family } from './model.ts';
import type { DrawnPart, DrawnRun, ViewContent } from './view-content.ts';
import { clipLine } from './views.ts';
import type { Box, PlacedView } from './views.ts';

export const familyColour = (family: Family, palette: Palette): string => ({ high_voltage: palette.highVoltage, low_voltage: palette.lowVoltage, mechanical: palette.muted })[family];
/** High voltage heavy, 12 V thin, what only weighs a long-dash line: the family shows without colour. */
export const familyLine: Readonly<Record<Family, { readonly width: number; readonly dash: string | undefined }>> = {
  high_voltage: { width: 0.5, dash: undefined }, low_voltage: { width: 0.25, dash: undefined }, mechanical: { width: 0.25, dash: '6 1 1 1' },
};
export const runLine: Readonly<Record<DrawnRun['carries'], number>> = { high_voltage: 0.6, low_voltage: 0.25, signal: 0.2 };
export const runColour = (carries: DrawnRun['carries'], palette: Palette): string => ({ high_voltage: palette.highVoltage, low_voltage: palette.lowVoltage, signal: palette.signal })[carries];
/** where no route is given */
export const STRAIGHT = '2 1.2';
export const HIDDEN = '1.2 0.8';

/** @param faint  families that are only there for orientation */
export function ViewDrawing({ content, window, balloons = [], faint = [] }: { readonly content: ViewContent; readonly window?: Box; readonly balloons?: readonly Balloon[]; readonly faint?: readonly Family[] }): ReactElement {
  const levels = new Map(content.parts.map(({ name, level }) => [name, level]));
  return (
    <g>
      {content.parts.map((part) => <Part key={part.name} part={part} placed={content.placed} window={window} isFaint={faint.includes(part.family)} />)}
      {content.runs.map((run) => <Run key={run.name} run={run} />)}
      {content.parts.filter(({ isHidden, family }) => isHidden && !faint.includes(family)).map((part) => <HiddenEdges key={part.name} part={part} window={window} />)}
      {content.names.map((label) => <Name key={label.text} label={label} levels={levels} />)}
      {balloons.map((balloon) => <BalloonMark key={balloon.name} balloon={balloon} level={levels.get(balloon.name)} />)}
    </g>
  );
}

function Part({ part, placed, window, isFaint }: { readonly part: DrawnPart; readonly placed: PlacedView; readonly window: Box | undefined; readonly isFaint: boolean }): ReactElement {
  const palette = usePalette();
  const { width, dash } = familyLine[part.family];
  const colour = isFaint ? palette.hairline : familyColour(part.family, palette);
  const line = { stroke: colour, strokeWidth: isFaint ? 0.18 : width, ...(dash === undefined ? {} : { strokeDasharray: dash }) };
  const { x, y, width: across, height } = part.box;
  const middle = { x: round(x + across / 2), y: round(y + height / 2) };
  return (
    <Subject path={`parts.${part.name}`} label={part.label}>
      <g data-drag={`parts.${part.name}`} data-view={placed.view} data-scale={String(placed.scale)}>
        {part.hasSize
          ? <ClippedBox box={part.box} window={window} fill={part.isSolid ? (isFaint ? palette.sheet : palette.wash) : 'none'} line={line} />
          : <path d={`M${round(x)} ${middle.y} H${round(x + across)} M${middle.x} ${round(y)} V${round(y + height)}`} fill="none" {...line} />}
      </g>
    </Subject>
  );
}

/** A box cut off at the edge of the window: the cut edges are not drawn. */
function ClippedBox({ box, window, fill, line }: { readonly box: Box; readonly window: Box | undefined; readonly fill: string; readonly line: { readonly stroke: string; readonly strokeWidth: number; readonly strokeDasharray?: string } }): ReactElement {
  const [right, bottom] = [box.x + box.width, box.y + box.height];
  // shapes smaller than a line's width still have to be seen
  const seen = window ? { x: Math.max(box.x, window.x), y: Math.max(box.y, window.y), right: Math.min(right, window.x + window.width), bottom: Math.min(bottom, window.y + window.height) } : { x: box.x, y: box.y, right, bottom };
  const shape = { x: round(seen.x), y: round(seen.y), width: round(Math.max(0.2, seen.right - seen.x)), height: round(Math.max(0.2, seen.bottom - seen.y)) };
  const isWhole = seen.x === box.x && seen.y === box.y && seen.right === right && seen.bottom === bottom;
  if (isWhole) return <rect {...shape} fill={fill} {...line} />;
  const corners = [{ x: box.x, y: box.y }, { x: right, y: box.y }, { x: right, y: bottom }, { x: box.x, y: bottom }];
  const edges = corners.flatMap((corner, index) => { const piece = clipLine(corner, corners[(index + 1) % 4]!, window!); return piece ? [`M${round(piece[0].x)} ${round(piece[0].y)} L${round(piece[1].x)} ${round(piece[1].y)}`] : []; });
  // an unfilled shape could not be taken hold of; the colour of the sheet would hide what is behind
  return <g>{fill !== 'none' && <rect {...shape} fill={fill} stroke="none" />}<path d={edges.join(' ')} fill="none" {...line} /></g>;
}

function HiddenEdges({ part, window }: { readonly part: DrawnPart; readonly window: Box | undefined }): ReactElement {
  const palette = usePalette();
  return <ClippedBox box={part.box} window={window} fill="none" line={{ stroke: familyColour(part.family, palette), strokeWidth: 0.25, strokeDasharray: HIDDEN }} />;
}

function Run({ run }: { readonly run: DrawnRun }): ReactElement {
  const palette = usePalette();
  const d = run.lines.map(([a, b], index) => {
    const last = run.lines[index - 1]?.[1];
    return `${last && last.x === a.x && last.y === a.y ? '' : `M${round(a.x)} ${round(a.y)} `}L${round(b.x)} ${round(b.y)}`;
  }).join(' ');
  return <Subject path={`runs.${run.name}`} label={run.label}><path d={d} fill="none" stroke={runColour(run.carries, palette)} strokeWidth={runLine[run.carries]} {...(run.isRouted ? {} : { strokeDasharray: STRAIGHT })} /></Subject>;
}

function Name({ label, levels }: { readonly label: InnerLabel; readonly levels: ReadonlyMap<string, Level | undefined> }): ReactElement {
  const level = openLevel(label.names.map((name) => levels.get(name)));
  const width = widthOf(label.text, letterSize.small);
  return <g><Letters x={label.x} y={label.y} size="small" text={label.text} />{level !== undefined && <LevelMark level={level} x={label.x + width + INNER_MARK / 2 + 0.3} y={label.y - 1.05} size={2.4} />}</g>;
}

/** Half the height of a balloon [mm]. */
const BALLOON = 2.5;

function balloonHalfWidth(item: number): number {
  return Math.max(BALLOON, widthOf(String(item), letterSize.small) / 2 + 0.5);
}

/** Item number in a circle, its leader ending in a dot on the part (ISO 128, ISO 6433). */
function BalloonMark({ balloon, level }: { readonly balloon: Balloon; readonly level: Level | undefined }): ReactElement {
  const palette = usePalette();
  const { at, site, row, name, item } = balloon;
  const half = balloonHalfWidth(item);
  const length = Math.hypot(site.x - at.x, site.y - at.y) || 1;
  const out = { top: { x: 0, y: -1 }, bottom: { x: 0, y: 1 }, left: { x: -1, y: 0 }, right: { x: 1, y: 0 } }[row];
  const marked = level !== undefined && level !== 'holds';
  return (
    <g>
      <path d={`M${round(at.x + ((site.x - at.x) / length) * half)} ${round(at.y + ((site.y - at.y) / length) * BALLOON)} L${round(site.x)} ${round(site.y)}`} stroke={palette.ink} strokeWidth={0.18} fill="none" />
      <circle cx={round(site.x)} cy={round(site.y)} r={0.5} fill={palette.ink} />
      <Subject path={`parts.${name}`} label={`item ${item}, ${name}`}>
        <ellipse cx={round(at.x)} cy={round(at.y)} rx={round(half)} ry={BALLOON} fill={palette.sheet} stroke={palette.ink} strokeWidth={0.25} />
        <Letters x={at.x} y={at.y + 1.05} size="small" align="middle" text={String(item)} />
      </Subject>
      {marked && <LevelMark level={level} x={at.x + out.x * (half + 2)} y={at.y + out.y * (BALLOON + 1.7)} size={2.4} />}
    </g>
  );
}
