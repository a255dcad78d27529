/** Ground, axles, places of the wheels, axle loads, tracks and wheelbase, centre lines and centres of gravity over the views. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { NumberText } from '../marks/number-text.tsx';
import type { ThreeViews, ViewOnSheet } from './arrangement.ts';
import type { Change, LayoutModel } from './model.ts';
import { centreOnPaper } from './centre.ts';
import { Axes, CentreMark, Dimension } from './symbols.tsx';
import { toPaper } from './views.ts';

const CHAIN = '5 0.8 0.6 0.8';
/** how far centre lines stand out of a view [mm] */
const OUT = 2.5;
/** under the ground line [mm] */
const ARROW = 6.5;
const FIRST_DIMENSION = 20;
const SECOND_DIMENSION = 26;

/** What lies under the parts: ground, axles, the middle plane. */
export function CentreLines({ page, model }: { readonly page: ThreeViews; readonly model: LayoutModel }): ReactElement {
  const { muted, ink } = usePalette();
  const { plan, side, rear } = page;
  const axles = [0, ...(model.vehicle.wheelbase === undefined ? [] : [model.vehicle.wheelbase])];
  const line = (d: string, key: string): ReactElement => <path key={key} d={d} stroke={muted} strokeWidth={0.18} strokeDasharray={CHAIN} fill="none" />;
  const ground = toPaper(side.content.placed, [0, 0, 0]).y;
  const [middlePlan, middleRear] = [toPaper(plan.content.placed, [0, 0, 0]).y, toPaper(rear.content.placed, [0, 0, 0]).x];
  return (
    <g>
      {line(`M${round(plan.box.x - OUT)} ${round(middlePlan)} H${round(plan.box.x + plan.box.width + OUT)}`, 'plan')}
      {line(`M${round(middleRear)} ${round(rear.box.y - OUT)} V${round(ground + OUT)}`, 'rear')}
      {axles.map((x) => {
        const at = toPaper(side.content.placed, [x, 0, 0]).x;
        return <g key={x}>{line(`M${round(at)} ${round(plan.box.y - 1)} V${round(plan.box.y + plan.box.height + 1)}`, 'p')}{line(`M${round(at)} ${round(side.box.y - 1)} V${round(ground)}`, 's')}</g>;
      })}
      {[side, rear].map(({ box }, index) => <path key={index} d={`M${round(box.x - 4)} ${round(ground)} H${round(box.x + box.width + 4)}`} stroke={ink} strokeWidth={0.5} fill="none" />)}
      {[side, rear].map(({ box }, index) => <path key={`h${index}`} d={hatches(box.x - 4, box.x + box.width + 4, ground)} stroke={muted} strokeWidth={0.18} fill="none" />)}
    </g>
  );
}

/** Short strokes under the ground line, in groups. */
function hatches(from: number, to: number, y: number): string {
  const strokes: string[] = [];
  for (let x = from + 4; x < to; x += 28) for (const step of [0, 1.4, 2.8]) strokes.push(`M${round(x + step)} ${round(y)} l-1.4 1.4`);
  return strokes.join(' ');
}

/** Axes and titles of the three views. */
export function ViewTitles({ page, what }: { readonly page: ThreeViews; /** after the name of the plan */ readonly what: string }): ReactElement {
  const { plan, side, rear } = page;
  const ground = toPaper(side.content.placed, [0, 0, 0]).y;
  return (
    <g>
      <Letters x={plan.box.x} y={plan.box.y - 13.2} face="strong" text={`Plan, from above${what}`} />
      <Letters x={side.box.x} y={side.box.y - 2} face="strong" text="Side, from the left" />
      <Letters x={rear.box.x} y={rear.box.y - 2} face="strong" text="From the rear" />
      <Axes x={plan.box.x - 9} y={plan.box.y + plan.box.height} across="x" up="y" />
      <Axes x={side.box.x - 9} y={ground - 6} across="x" up="z" />
      <Axes x={rear.box.x - 13} y={ground - 6} across="y" up="z" />
    </g>
  );
}

/** What lies over the parts. */
export function AxleMarks({ page, model }: { readonly page: ThreeViews; readonly model: LayoutModel }): ReactElement {
  const { ink } = usePalette();
  const { plan, side, rear } = page;
  const { wheelbase, frontTrack, rearTrack, shown } = model.vehicle;
  const ground = toPaper(side.content.placed, [0, 0, 0]).y;
  const wheels = [[0, frontTrack], [wheelbase, rearTrack]].flatMap(([x, track]) => (x === undefined || track === undefined ? [] : [-1, 1].map((sign) => ({ x, y: (sign * track) / 2 }))));
  const rearX = (track: number, sign: number): number => toPaper(rear.content.placed, [0, (sign * track) / 2, 0]).x;
  const axleX = (x: number): number => toPaper(side.content.placed, [x, 0, 0]).x;
  return (
    <g>
      {wheels.map(({ x, y }) => { const at = toPaper(plan.content.placed, [x, y, 0]); return <path key={`${x} ${y}`} d={`M${round(at.x - 4)} ${round(at.y)} H${round(at.x + 4)} M${round(at.x)} ${round(at.y - 1.2)} V${round(at.y + 1.2)}`} stroke={ink} strokeWidth={0.7} fill="none" />; })}
      {rearTrack !== undefined && [-1, 1].map((sign) => <path key={sign} d={`M${round(rearX(rearTrack, sign))} ${round(ground)} v-5`} stroke={ink} strokeWidth={0.7} fill="none" />)}
      {wheelbase !== undefined && <Loads y={ground} left={{ x: axleX(0), change: model.loads.front, what: 'front axle' }} right={{ x: axleX(wheelbase), change: model.loads.rear, what: 'rear axle' }} />}
      {rearTrack !== undefined && <Loads y={ground} left={{ x: rearX(rearTrack, -1), change: model.loads.left, what: 'left' }} right={{ x: rearX(rearTrack, 1), change: model.loads.right, what: 'right' }} />}
      {wheelbase !== undefined && shown.wheelbase && <Dimension x1={axleX(0)} x2={axleX(wheelbase)} y={ground + FIRST_DIMENSION} foot={ground + ARROW + 1} shown={shown.wheelbase} before="wheelbase " />}
      {rearTrack !== undefined && shown.rearTrack && <Dimension x1={rearX(rearTrack, -1)} x2={rearX(rearTrack, 1)} y={ground + FIRST_DIMENSION} foot={ground + ARROW + 1} shown={shown.rearTrack} before="rear track " />}
      {frontTrack !== undefined && shown.frontTrack && <Dimension x1={rearX(frontTrack, -1)} x2={rearX(frontTrack, 1)} y={ground + SECOND_DIMENSION} foot={ground + FIRST_DIMENSION + 2} shown={shown.frontTrack} before="front track " />}
      {[plan, side, rear].map((view) => <Centres key={view.content.placed.view} view={view} model={model} />)}
    </g>
  );
}

interface LoadAt { readonly x: number; readonly change: Change; readonly what: string }

const wordsOf = ({ what }: LoadAt): string => `${what}, after: `;
const widthOfLoad = (load: LoadAt): number => Math.max(widthOf(`${wordsOf(load)}${load.change.after.text}`, letterSize.body, 'strong') + (load.change.level === undefined || load.change.level === 'holds' ? 0 : 8), ...[load.change.before, load.change.rating].map((shown) => (shown ? widthOf(`allowed: ${shown.text}`, letterSize.small) : 0)));

/** Two loads with their words between the arrows, or where there is no room for that, to the right of each. */
function Loads({ y, left, right }: { readonly y: number; readonly left: LoadAt; readonly right: LoadAt }): ReactElement {
  const room = right.x - left.x;
  const fits = widthOfLoad(left) + widthOfLoad(right) + 6 <= room;
  const isShort = !fits && widthOfLoad(left) + 4 > room;
  return <g><Load load={left} y={y} isLeft={isShort} /><Load load={right} y={y} isLeft={fits} /></g>;
}

/** A load on the ground: an arrow down, what it was and what it is beside it. */
function Load({ load, y, isLeft }: { readonly load: LoadAt; readonly y: number; /** the words stand to the left of the arrow */ readonly isLeft: boolean }): ReactElement {
  const { ink, muted } = usePalette();
  const { x, change } = load;
  const text = isLeft ? { x: x - 2, align: 'end' as const } : { x: x + 2, align: 'start' as const };
  const width = widthOf(`${wordsOf(load)}${change.after.text}`, letterSize.body, 'strong');
  return (
    <g>
      <path d={`M${round(x)} ${round(y)} v${ARROW - 2}`} stroke={ink} strokeWidth={0.5} fill="none" />
      <path d={`M${round(x)} ${round(y + ARROW)} l-1.1 -2.8 h2.2 Z`} fill={ink} />
      <NumberText shown={change.after} before={wordsOf(load)} {...text} y={y + 5.2} size="body" face="strong" />
      <NumberText shown={change.before} before="before: " {...text} y={y + 9.6} size="small" fill={muted} />
      {change.rating && <NumberText shown={change.rating} before="allowed: " {...text} y={y + 13.6} size="small" fill={muted} />}
      {change.level !== undefined && change.level !== 'holds' && <LevelMark level={change.level} x={isLeft ? x - width - 5 : x + width + 5} y={y + 4} size={2.8} />}
    </g>
  );
}

function Centres({ view, model }: { readonly view: ViewOnSheet; readonly model: LayoutModel }): ReactElement {
  return <g>{(['before', 'after'] as const).flatMap((when) => { const at = centreOnPaper(view.content.placed, model.centre[when]); return at ? [<CentreMark key={when} {...at} isAfter={when === 'after'} />] : []; })}</g>;
}
