/** The layout in words. */
import type { TextBlock } from '../text-block.ts';
import { NOTHING } from '../shown.ts';
import { tableText } from '../table/table.ts';
import type { DetailPage, ThreeViews } from './arrangement.ts';
import type { Change, LayoutModel } from './model.ts';
import { runsTable } from './parts-list.ts';

export function generalText(model: LayoutModel, page: ThreeViews): readonly TextBlock[] {
  const { vehicle, loads, centre } = model;
  const noPlace = model.parts.filter(({ at, isBeside }) => at === undefined && !isBeside);
  const load = (what: string, { before, after, rating }: Change): string[] => [what, before.text, after.text, rating?.text ?? NOTHING];
  const runs = model.runs.filter(({ carries }) => carries === 'high_voltage');
  return [
    { kind: 'heading', text: 'Layout' },
    { kind: 'paragraph', text: `Plan, side and rear view at 1:${page.scale} on A3, third-angle. x runs rearward from the front axle line, y to the right from the middle plane, z up from the ground.` },
    { kind: 'list', items: [
      `Wheelbase ${vehicle.shown.wheelbase?.text ?? 'not given'}, front track ${vehicle.shown.frontTrack?.text ?? 'not given'}, rear track ${vehicle.shown.rearTrack?.text ?? 'not given'}.`,
      ...(['before', 'after'] as const).map((when) => { const one = centre[when]; return `Centre of gravity ${when} the work: ${one ? `x ${one.shown[0].text}, y ${one.shown[1].text}, z ${one.shown[2].text}` : 'not known'}.`; }),
    ] },
    { kind: 'table', caption: 'Loads', head: ['', 'Before', 'After', 'Allowed'], rows: [load('front axle', loads.front), load('rear axle', loads.rear), load('left side', loads.left), load('right side', loads.right), load('total', loads.total)] },
    ...(noPlace.length > 0 ? [{ kind: 'paragraph', text: `No place given, so not drawn: ${noPlace.map(({ name }) => name).join(', ')}.` } as const] : []),
    tableText('High-voltage runs', runsTable({ ...model, runs, notDrawn: model.notDrawn })),
  ];
}

export function lowVoltageText(model: LayoutModel, page: ThreeViews, details: readonly DetailPage[]): readonly TextBlock[] {
  return [
    { kind: 'heading', text: 'Layout: 12 V and signals' },
    { kind: 'paragraph', text: `Plan at 1:${page.scale}.${details.length > 0 ? ` Crowded places are drawn again as ${details.map(({ letter }) => `detail ${letter}`).join(', ')}.` : ''}` },
    tableText('12 V and signal runs', runsTable({ ...model, runs: model.runs.filter(({ carries }) => carries !== 'high_voltage'), notDrawn: [] })),
  ];
}

export function detailText(model: LayoutModel, { letter, scale, plan }: DetailPage): readonly TextBlock[] {
  const shown = new Set([...plan.balloons.map(({ name }) => name), ...plan.content.names.flatMap(({ names }) => names)]);
  return [
    { kind: 'heading', text: `Layout: detail ${letter}` },
    { kind: 'paragraph', text: `Plan at 1:${scale}.` },
    { kind: 'table', caption: 'Parts in it', head: ['Item', 'Part', 'Kind', 'Middle at x, y, z'], rows: model.parts.filter(({ name }) => shown.has(name)).map((part) => [String(part.item), part.name, part.kind, part.shown.at?.map(({ text }) => text).join(', ') ?? NOTHING]) },
  ];
}
