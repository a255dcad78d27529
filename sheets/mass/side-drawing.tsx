/** Draws the side view to a scale: front of the vehicle at the left, ground below. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { round } from '../lettering/round.ts';
import { Subject } from '../marks/subject.tsx';
import type { SideView } from './side-view.ts';
import { usualScale } from './side-view.ts';

/** Where a place of the vehicle lies on the paper [mm]. */
export interface Projection {
  readonly across: (x: number) => number;
  readonly up: (z: number) => number;
  /** 1:n */
  readonly scale: number;
  readonly left: number; readonly right: number; readonly top: number;
}

/** room at each end for what stands beside the parts [mm] */
const MARGIN = 6;

/**
 * Fits the vehicle into a field; `ground` is the height of the ground line on the paper, what is below it is the caller's.
 * @param reach  highest place that must be seen besides the parts [m]
 * @returns undefined when the file places nothing
 */
export function projectionOf({ extent }: SideView, field: { readonly x: number; readonly width: number; readonly top: number; readonly ground: number }, reach = 0): Projection | undefined {
  if (!extent) return undefined;
  const high = Math.max(extent.high, reach, 0.1);
  const scale = usualScale([[Math.max(extent.rear - extent.front, 0.1), field.width - 2 * MARGIN], [high - Math.min(0, extent.low), field.ground - field.top]]);
  const middle = (extent.front + extent.rear) / 2;
  const across = (x: number): number => field.x + field.width / 2 + ((x - middle) * 1000) / scale;
  const up = (z: number): number => field.ground - (z * 1000) / scale;
  return { across, up, scale, left: field.x, right: field.x + field.width, top: up(high) };
}

/** The ground, the axles and the parts. */
export function SideDrawing({ view, at, axleTop }: { readonly view: SideView; readonly at: Projection; /** how high the axle lines reach [m] */ readonly axleTop?: number }): ReactElement {
  const palette = usePalette();
  const ground = at.up(0);
  const high = axleTop ?? Math.max(view.extent?.high ?? 0, 0.1);
  return (
    <g>
      {view.boxes.map(({ name, path, tone, isShell, x, z, length, height }) => (
        <Subject key={name} path={path} label={name}>
          <rect x={round(at.across(x))} y={round(at.up(z))} width={round((length * 1000) / at.scale)} height={round((height * 1000) / at.scale)} fill={isShell ? 'none' : palette.sheet} stroke={palette[tone]} strokeWidth={isShell ? 0.25 : 0.35} {...(isShell ? { strokeDasharray: '1.6 1' } : {})} />
        </Subject>
      ))}
      {view.dots.map(({ name, path, tone, x, z }) => (
        <Subject key={name} path={path} label={`${name}, no size given`}>
          <path d={`M${round(at.across(x) - 1.2)} ${round(at.up(z))} h2.4 M${round(at.across(x))} ${round(at.up(z) - 1.2)} v2.4`} fill="none" stroke={palette[tone]} strokeWidth={0.35} />
        </Subject>
      ))}
      <line x1={round(at.left)} y1={round(ground)} x2={round(at.right)} y2={round(ground)} stroke={palette.ink} strokeWidth={0.5} />
      {view.wheelbase !== undefined && [0, view.wheelbase].map((x, index) => (
        <g key={index}>
          <line x1={round(at.across(x))} y1={round(ground)} x2={round(at.across(x))} y2={round(Math.max(at.top, at.up(high)) - 2)} stroke={palette.ink} strokeWidth={0.18} strokeDasharray="6 1.2 1 1.2" />
          <path d={`M${round(at.across(x))} ${round(ground)} l-1.6 2.8 h3.2 z`} fill={palette.sheet} stroke={palette.ink} strokeWidth={0.35} />
        </g>
      ))}
      <FrontArrow x={at.left} y={ground - 2} />
    </g>
  );
}

/** Which way the vehicle faces. */
function FrontArrow({ x, y }: { readonly x: number; readonly y: number }): ReactElement {
  const palette = usePalette();
  return (
    <g>
      <path d={`M${round(x + 8)} ${round(y - 4)} h-7.5 m2.2 -1.2 l-2.2 1.2 l2.2 1.2`} fill="none" stroke={palette.muted} strokeWidth={0.35} />
      <Letters x={x} y={y} size="small" fill={palette.muted} text="front" />
    </g>
  );
}

/** A dimension line from one place to another with its number above, centred. */
export function Dimension({ from, to, y, text }: { readonly from: number; readonly to: number; readonly y: number; readonly text: (x: number, y: number) => ReactElement }): ReactElement {
  const palette = usePalette();
  return (
    <g>
      <path d={`M${round(from)} ${round(y)} H${round(to)} M${round(from)} ${round(y - 1.6)} v3.2 M${round(to)} ${round(y - 1.6)} v3.2`} fill="none" stroke={palette.ink} strokeWidth={0.25} />
      <path d={`M${round(from)} ${round(y)} l2.4 -0.8 v1.6 z M${round(to)} ${round(y)} l-2.4 -0.8 v1.6 z`} fill={palette.ink} />
      {text((from + to) / 2, y - 1)}
    </g>
  );
}
