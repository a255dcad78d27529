/** The balance: side view to scale, axle loads as arrows before and after, centre of gravity before and after. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { NumberText } from '../marks/number-text.tsx';
import { placeLabels } from '../plot/place-labels.ts';
import type { AxleLoad, MassModel } from './model.ts';
import { Dimension, projectionOf, SideDrawing } from './side-drawing.tsx';
import type { Projection } from './side-drawing.tsx';

interface Field { readonly x: number; readonly y: number; readonly width: number; readonly height: number }

/** below the ground: arrows, their numbers, the wheelbase [mm] */
const BELOW = 38;
const ARROW = 20;

export function balanceProjection({ view, centres }: MassModel, { x, y, width, height }: Field): Projection | undefined {
  const reach = Math.max(0, centres.before?.z ?? 0, centres.after?.z ?? 0);
  return projectionOf(view, { x, width, top: y + 12, ground: y + height - BELOW }, reach);
}

export function BalanceDrawing({ model, field }: { readonly model: MassModel; readonly field: Field }): ReactElement {
  const palette = usePalette();
  const at = balanceProjection(model, field);
  if (!at) return <Paragraph x={field.x} y={field.y + 6} width={field.width} fill={palette.muted} text="Nothing to draw: the file gives no wheelbase and no part with a place. Write vehicle.wheelbase and the parts with at and size." />;
  const ground = at.up(0);
  const most = Math.max(1e-9, ...model.axles.flatMap(({ before, after }) => [before ?? 0, after ?? 0]));
  const wheelbase = model.view.wheelbase;
  return (
    <g>
      <SideDrawing view={model.view} at={at} axleTop={Math.max(model.view.extent?.high ?? 0, model.centres.after?.z ?? 0)} />
      {wheelbase !== undefined && [0, wheelbase].map((x, index) => <AxleArrows key={index} axle={model.axles[index] as AxleLoad} x={at.across(x)} ground={ground} most={most} />)}
      {wheelbase !== undefined && labelPlaces(model, [at.across(0), at.across(wheelbase)], ground, field).map((x, index) => <AxleLabel key={index} axle={model.axles[index] as AxleLoad} x={x} ground={ground} />)}
      {wheelbase !== undefined && model.wheelbase && <Dimension from={at.across(0)} to={at.across(wheelbase)} y={ground + 33} text={(x, y) => <NumberText shown={model.wheelbase!} x={x} y={y} size="small" align="middle" before="wheelbase " sure />} />}
      <Centres model={model} at={at} ground={ground} />
      {model.missing.length > 0 && <Paragraph x={field.x} y={field.y + 4} width={field.width} size="small" fill={palette.muted} text={`Axle loads and centre of gravity need ${model.missing.join(', ')}.`} />}
    </g>
  );
}

/** What the road carries: thin and dashed before, thick after; the longer the heavier. */
function AxleArrows({ axle, x, ground, most }: { readonly axle: AxleLoad; readonly x: number; readonly ground: number; readonly most: number }): ReactElement {
  const palette = usePalette();
  const arrow = (dx: number, load: number | undefined, isAfter: boolean): ReactElement | null => {
    if (load === undefined || !(load > 0)) return null;
    const length = Math.max(4, (load / most) * ARROW);
    const tip = ground + 3.4;
    return (
      <g>
        <line x1={round(x + dx)} y1={round(tip + length)} x2={round(x + dx)} y2={round(tip + 2)} stroke={palette.ink} strokeWidth={isAfter ? 0.7 : 0.35} {...(isAfter ? {} : { strokeDasharray: '1.6 1' })} />
        <path d={`M${round(x + dx)} ${round(tip)} l-1.1 2.6 h2.2 z`} fill={isAfter ? palette.ink : palette.sheet} stroke={palette.ink} strokeWidth={0.25} />
      </g>
    );
  };
  return <g>{arrow(-1.8, axle.before, false)}{arrow(1.8, axle.after, true)}</g>;
}

const beforeText = ({ beforeShown: { text, sure } }: AxleLoad): string => `before ${text} ${sure ?? ''}`.trim();
const ratingText = ({ rating }: AxleLoad): string => (rating ? `may carry ${rating.text}` : 'rating not given');
const LABEL_HEIGHT = 20;
const smallWidth = (text: string): number => widthOf(text, letterSize.small);

/** Left edges of the two labels: beside their arrows, clear of each other and of the other's arrow. */
function labelPlaces({ axles }: MassModel, arrows: readonly [number, number], ground: number, field: Field): readonly number[] {
  const y = ground + 4;
  const wanted = axles.map((axle, index) => {
    const width = Math.max(smallWidth(axle.name) + 8, smallWidth(beforeText(axle)), smallWidth(`after ${axle.afterShown.text}`) * 1.08, smallWidth(ratingText(axle)));
    const x = arrows[index]!;
    const beside = [x + 5, x - 5 - width];
    return { width, height: LABEL_HEIGHT, candidates: [...(index === 0 ? beside : [...beside].reverse()), field.x, field.x + field.width - width, field.x + field.width / 2 - width - 3, field.x + field.width / 2 + 3].map((left) => ({ x: left, y })) };
  });
  const shafts = arrows.flatMap((x) => [-1.8, 1.8].map((dx) => ({ x1: x + dx, y1: ground, x2: x + dx, y2: ground + ARROW + 4 })));
  return placeLabels(wanted, shafts, { x: field.x, y: ground, width: field.width, height: BELOW }).map(({ x }) => x);
}

function AxleLabel({ axle, x, ground }: { readonly axle: AxleLoad; readonly x: number; readonly ground: number }): ReactElement {
  const palette = usePalette();
  const place = { x, size: 'small' } as const;
  return (
    <g>
      <Letters {...place} y={ground + 8} face="strong" text={axle.name} />
      {axle.level && <LevelMark level={axle.level} x={x + smallWidth(axle.name) * 1.08 + 4} y={ground + 7} size={3.2} />}
      <NumberText {...place} y={ground + 13} shown={axle.beforeShown} before="before " sure />
      <NumberText {...place} y={ground + 17.5} face="strong" shown={axle.afterShown} before="after " />
      {axle.rating ? <NumberText {...place} y={ground + 22} shown={axle.rating} before="may carry " /> : <Letters {...place} y={ground + 22} fill={palette.muted} text={ratingText(axle)} />}
    </g>
  );
}

/** The symbol of a centre of gravity: a circle with two quarters filled. Before: open. */
function Centres({ model, at, ground }: { readonly model: MassModel; readonly at: Projection; readonly ground: number }): ReactElement {
  const palette = usePalette();
  const { before, after } = model.centres;
  if (!before && !after) return <g />;
  const radius = 2.6;
  const symbol = (place: NonNullable<typeof before>, isAfter: boolean): ReactElement => {
    const [x, y] = [at.across(place.x), place.z === undefined ? ground : at.up(place.z)];
    return (
      <g key={String(isAfter)}>
        <circle cx={round(x)} cy={round(y)} r={radius} fill={palette.sheet} stroke={palette.ink} strokeWidth={0.35} {...(isAfter ? {} : { strokeDasharray: '1 0.7' })} />
        {isAfter && <path d={`M${round(x)} ${round(y)} v${-radius} a${radius} ${radius} 0 0 1 ${radius} ${radius} z M${round(x)} ${round(y)} v${radius} a${radius} ${radius} 0 0 1 ${-radius} ${-radius} z`} fill={palette.ink} />}
        <path d={`M${round(x - radius)} ${round(y)} h${radius * 2} M${round(x)} ${round(y - radius)} v${radius * 2}`} fill="none" stroke={palette.ink} strokeWidth={0.25} />
      </g>
    );
  };
  // labels above the drawing, each over its own symbol, pushed apart where they would meet
  const labels = [before && { place: before, text: 'centre of gravity before' }, after && { place: after, text: 'after' }].flatMap((one) => (one ? [one] : [])).sort((a, b) => a.place.x - b.place.x);
  const top = at.top - 5;
  let free = -Infinity;
  const placed = labels.map(({ place, text }, index) => {
    const width = smallWidth(text);
    const wish = at.across(place.x) - (index === 0 && labels.length > 1 ? width + 2 : labels.length > 1 ? -2 : width / 2);
    const x = Math.min(Math.max(wish, free, at.left), at.right - width);
    free = x + width + 4;
    return { x, width, text, place };
  });
  return (
    <g>
      {placed.map(({ x, width, text, place }) => (
        <g key={text}>
          <path d={`M${round(Math.min(Math.max(at.across(place.x), x), x + width))} ${round(top + 1)} L${round(at.across(place.x))} ${round((place.z === undefined ? ground : at.up(place.z)) - radius)}`} fill="none" stroke={palette.ink} strokeWidth={0.18} />
          <Letters x={x} y={top} size="small" text={text} />
        </g>
      ))}
      {before && symbol(before, false)}
      {after && symbol(after, true)}
      {(after ?? before)?.z === undefined && <Letters x={at.left} y={at.top - 9.5} size="small" fill={palette.muted} text="Drawn on the ground: the file gives no height (vehicle.centre_of_gravity_height)." />}
    </g>
  );
}
