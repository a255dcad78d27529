/** The vehicle from its left side, made only from what the file says: ground, axles, boxes of the parts. Plain data, lengths [m]. */
import type { Car, CarPart } from '../../core/car/car.ts';
import type { Tone } from '../table/table.ts';

export interface SideBox {
  readonly name: string; readonly path: string; readonly tone: Tone;
  /** holds others or only weighs: drawn as an outline */
  readonly isShell: boolean;
  /** corner at the front and top */
  readonly x: number; readonly z: number;
  readonly length: number; readonly height: number;
}

export interface SideView {
  /** undefined: not in the file */
  readonly wheelbase: number | undefined;
  readonly boxes: readonly SideBox[];
  /** parts with a place and no size */
  readonly dots: readonly { readonly name: string; readonly path: string; readonly tone: Tone; readonly x: number; readonly z: number }[];
  /** what all of it takes up, axles and ground included; undefined when there is nothing to draw */
  readonly extent: { readonly front: number; readonly rear: number; readonly low: number; readonly high: number } | undefined;
}

/** Largest boxes first, so that the small ones lie on top of them. */
export function sideViewOf(car: Car): SideView {
  const wheelbase = car.vehicle['wheelbase'] as number | undefined;
  const placed = [...car.parts.values()].flatMap((part) => (part.at ? [{ part, at: part.at }] : []));
  const boxes = placed.flatMap(({ part, at }): SideBox[] => (part.size ? [{ name: part.name, path: `parts.${part.name}`, tone: toneOf(part), isShell: part.kind.family === 'mechanical', x: at[0] - part.size[0] / 2, z: at[2] + part.size[2] / 2, length: part.size[0], height: part.size[2] }] : []))
    .sort((a, b) => b.length * b.height - a.length * a.height);
  const dots = placed.flatMap(({ part, at }) => (part.size ? [] : [{ name: part.name, path: `parts.${part.name}`, tone: toneOf(part), x: at[0], z: at[2] }]));
  const xs = [...(wheelbase === undefined ? [] : [0, wheelbase]), ...boxes.flatMap(({ x, length }) => [x, x + length]), ...dots.map(({ x }) => x)];
  const zs = [0, ...boxes.flatMap(({ z, height }) => [z, z - height]), ...dots.map(({ z }) => z)];
  return { wheelbase, boxes, dots, extent: xs.length === 0 ? undefined : { front: least(xs), rear: most(xs), low: least(zs), high: most(zs) } };
}

function toneOf({ ports, kind }: CarPart): Tone {
  if (ports.some(({ carries }) => carries === 'high_voltage')) return 'highVoltage';
  return kind.family === 'mechanical' ? 'muted' : 'lowVoltage';
}

const least = (values: readonly number[]): number => values.reduce((a, b) => Math.min(a, b), Infinity);
const most = (values: readonly number[]): number => values.reduce((a, b) => Math.max(a, b), -Infinity);

/**
 * The largest usual drawing scale at which a length fits: 1:n with n of 1, 2, 2.5, 5 times a power of ten, at least 5 (ISO 5455 with
 * the step of 2.5 that workshops use).
 * @param needs  pairs of a real length [m] and the room for it on paper [mm]
 */
export function usualScale(needs: readonly (readonly [number, number])[]): number {
  const least = Math.max(5, ...needs.map(([length, room]) => (length * 1000) / room));
  const power = 10 ** Math.floor(Math.log10(least));
  return power * ([1, 2, 2.5, 5].find((step) => step * power >= least - 1e-9) ?? 10);
}
