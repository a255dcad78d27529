/** The first page: car and figures at the left; levels, next thing and open findings at the right; cautions below; the list of sheets at the foot. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { area, foot } from '../frame/page-size.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import { heightOf, letterSize, LINE } from '../lettering/letter-size.ts';
import { widthOf, wrap } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { levelOrder, levelWords } from '../levels.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { NumberText } from '../marks/number-text.tsx';
import { Subject } from '../marks/subject.tsx';
import { Dimension, projectionOf, SideDrawing } from '../mass/side-drawing.tsx';
import type { Projection } from '../mass/side-drawing.tsx';
import { sheetNames } from '../sheet.ts';
import { Schedule } from '../table/schedule.tsx';
import { fitted, tableHeight } from '../table/table.ts';
import type { Table } from '../table/table.ts';
import type { Caution } from './cautions.ts';
import type { CoverModel, OpenFinding } from './model.ts';
import { setList } from './set-list.ts';

const LEFT = 182;
const RIGHT = LEFT + 10;
const RIGHT_WIDTH = area.width - RIGHT;
const FIGURES = 92;
const BESIDE = FIGURES + 8;
const VEHICLE = LEFT - BESIDE;
const SMALL = letterSize.small * LINE;
const COLUMNS = 3;
const COLUMN_GAP = 7;
const COLUMN = (area.width - 8 - (COLUMNS - 1) * COLUMN_GAP) / COLUMNS;

export const packTable = (model: CoverModel): Table => ({ columns: fitted([{ head: 'Pack', width: 52 }, { head: '', width: 40, align: 'end' }], FIGURES), rows: model.figures.pack });
export const vehicleTable = (model: CoverModel): Table => ({ columns: fitted([{ head: 'Vehicle', width: 36 }, { head: 'Before', width: 23, align: 'end' }, { head: 'After', width: 23, align: 'end' }], VEHICLE), rows: model.figures.vehicle });
const LIST_STEP = 4.8;
const LIST_ROWS = 4;
const LIST_COLUMN = foot.width / Math.ceil(sheetNames.length / LIST_ROWS);

/** Where the pieces lie [mm]; no picture when there is nothing to draw or no room for it. */
export interface CoverPlaces { readonly top: number; readonly cautions: number; readonly figures: number; readonly picture: Projection | undefined }

export function placesOf(model: CoverModel): CoverPlaces {
  const top = titleHeight(model) + 4;
  const cautions = area.height - cautionHeight(model.cautions);
  const figures = cautions - 4 - Math.max(tableHeight(packTable(model)), tableHeight(vehicleTable(model)));
  const ground = figures - 12;
  return { top, cautions, figures, picture: ground - top < 20 ? undefined : projectionOf(model.view, { x: 0, width: LEFT, top: top + 3, ground }) };
}

const titleHeight = ({ build, scenario }: CoverModel): number => heightOf(build, area.width, 'title', 'strong') + (scenario === undefined ? 0 : heightOf(scenario, area.width));

export function FirstPage({ model, places, lastPage }: { readonly model: CoverModel; readonly places: CoverPlaces; readonly lastPage: number }): ReactElement {
  const palette = usePalette();
  const { top, cautions, figures, picture } = places;
  const nameHeight = heightOf(model.build, area.width, 'title', 'strong');
  return (
    <g>
      <Paragraph x={0} y={letterSize.title * 0.95} width={area.width} size="title" face="strong" text={model.build} />
      {model.scenario !== undefined && <Paragraph x={0} y={nameHeight + letterSize.body} width={area.width} fill={palette.muted} text={model.scenario} />}
      <Silhouette model={model} at={picture} top={top} />
      <Schedule table={packTable(model)} x={0} y={figures} />
      <Schedule table={vehicleTable(model)} x={BESIDE} y={figures} />
      <Standing model={model} x={RIGHT} y={top} bottom={cautions - 4} lastPage={lastPage} />
      <Cautions cautions={model.cautions} y={cautions} />
    </g>
  );
}

function Silhouette({ model, at, top }: { readonly model: CoverModel; readonly at: Projection | undefined; readonly top: number }): ReactElement {
  const palette = usePalette();
  if (!at && model.view.extent) return <g />;
  if (!at) return <Paragraph x={0} y={top + 6} width={LEFT} fill={palette.muted} text="No picture yet: give vehicle.wheelbase, and each part its size and at." />;
  const { wheelbase } = model.view;
  return (
    <g>
      <SideDrawing view={model.view} at={at} />
      {wheelbase !== undefined && model.wheelbase && <Dimension from={at.across(0)} to={at.across(wheelbase)} y={at.up(0) + 6.5} text={(x, y) => <NumberText shown={model.wheelbase!} x={x} y={y} size="small" align="middle" />} />}
    </g>
  );
}

/** The sheets of this set, at the foot of the page. */
export function SetList(): ReactElement {
  const palette = usePalette();
  return (
    <g>
      {sheetNames.map((name, index) => {
        const x = foot.x + Math.floor(index / LIST_ROWS) * LIST_COLUMN;
        const y = foot.y + 5.5 + (index % LIST_ROWS) * LIST_STEP;
        const { title, answers } = setList[name];
        return (
          <g key={name}>
            <Letters x={x} y={y} size="small" fill={palette.muted} text={String(index + 1)} />
            <Letters x={x + 4.8} y={y} size="small" face="strong" text={title} />
            <Letters x={x + 6.6 + widthOf(title, letterSize.small, 'strong')} y={y} size="small" fill={palette.muted} text={answers} />
          </g>
        );
      })}
    </g>
  );
}

/** Counts by level, the next thing, and as many open findings as there is room for. */
function Standing({ model, x, y, bottom, lastPage }: { readonly model: CoverModel; readonly x: number; readonly y: number; readonly bottom: number; readonly lastPage: number }): ReactElement {
  const palette = usePalette();
  const step = RIGHT_WIDTH / levelOrder.length;
  const nextTop = y + 14;
  const nextHeight = heightOf(model.next.do, RIGHT_WIDTH - 8) + 9.5;
  const next = <Paragraph x={x + 4} y={nextTop + 11} width={RIGHT_WIDTH - 8} text={model.next.do} />;
  return (
    <g>
      {levelOrder.map((level, index) => (
        <g key={level}>
          <LevelMark level={level} x={x + index * step + 2.5} y={y + 5} size={5} />
          <Letters x={x + index * step + 7.5} y={y + 6.6} size="head" face="strong" text={String(model.counts[level])} />
          <Letters x={x + index * step + 7.5} y={y + 11} size="small" fill={palette.muted} text={levelWords[level]} />
        </g>
      ))}
      <rect x={round(x)} y={round(nextTop)} width={round(RIGHT_WIDTH)} height={round(nextHeight)} fill={palette.wash} stroke={palette.ink} strokeWidth={0.35} />
      <Letters x={x + 4} y={nextTop + 5.5} face="strong" text="Next" />
      {model.next.path === undefined ? next : <Subject path={model.next.path} label={`Next: ${model.next.do}`}>{next}</Subject>}
      <OpenList open={model.open.filter((finding, index) => index > 0 || textOf(finding) !== model.next.do)} hasOpen={model.open.length > 0} x={x} y={nextTop + nextHeight + 6} bottom={bottom - SMALL - 1} lastPage={lastPage} />
      {model.hasParts && <Letters x={x} y={bottom - 1} size="small" fill={palette.muted} text={ELSEWHERE} />}
    </g>
  );
}

/** They take seconds to compute, so the counts do without them. */
export const ELSEWHERE = `Not counted here: what one failure must not do, sheet ${sheetNames.indexOf('single-failures') + 1}.`;

const textOf = ({ statement, whatToDo }: OpenFinding): string => `${statement} ${whatToDo}`.trim();
const entryHeight = (finding: OpenFinding): number => heightOf(textOf(finding), RIGHT_WIDTH - 7, 'small') + 2;

/** The first of them stands under Next already. */
function OpenList({ open, hasOpen, x, y, bottom, lastPage }: { readonly open: readonly OpenFinding[]; readonly hasOpen: boolean; readonly x: number; readonly y: number; readonly bottom: number; readonly lastPage: number }): ReactElement {
  const palette = usePalette();
  const shown: { finding: OpenFinding; at: number }[] = [];
  let at = y + 6;
  for (const [index, finding] of open.entries()) {
    const height = entryHeight(finding);
    if (at + height > bottom - (index < open.length - 1 ? SMALL : 0)) break;
    shown.push({ finding, at });
    at += height;
  }
  const left = open.length - shown.length;
  const pages = lastPage > 2 ? `pages 2 to ${lastPage}` : 'page 2';
  return (
    <g>
      <Letters x={x} y={y} face="strong" text={!hasOpen ? 'Nothing computed here stands open' : open.length === 0 ? 'Nothing else stands open' : 'What stands open besides, worst first'} />
      {shown.map(({ finding, at: top }, index) => {
        const { level, path } = finding;
        const text = textOf(finding);
        return <g key={index}><LevelMark level={level} x={x + 2} y={top - 1} size={3.2} /><Subject path={path} label={`${levelWords[level]}: ${text}`}><Paragraph x={x + 7} y={top} width={RIGHT_WIDTH - 7} size="small" text={text} /></Subject></g>;
      })}
      {left > 0 && <Letters x={x + 7} y={at} size="small" face="strong" text={`and ${left} more: all of them on ${pages}.`} />}
      {!hasOpen && <Paragraph x={x} y={y + 6} width={RIGHT_WIDTH} size="small" fill={palette.muted} text="What is not in the file was not looked at. Inspection and measurement decide." />}
    </g>
  );
}

const HEAD = 8;

/** Caution texts in columns of about the same height, none split. */
function columnsOf(cautions: readonly Caution[]): readonly (readonly (Caution & { readonly height: number })[])[] {
  const sized = cautions.map((caution) => ({ ...caution, height: (1 + wrap(caution.text, COLUMN, letterSize.small).length) * SMALL + 1.6 }));
  // the lowest height at which they fit, tried upward
  const highest = sized.reduce((sum, { height }) => sum + height, 0);
  for (let room = highest / COLUMNS; ; room += 1) {
    const columns: (typeof sized)[] = [[]];
    let used = 0;
    for (const caution of sized) {
      if (used + caution.height > room && used > 0) { columns.push([]); used = 0; }
      columns[columns.length - 1]!.push(caution);
      used += caution.height;
    }
    if (columns.length <= COLUMNS) return columns;
  }
}

const cautionHeight = (cautions: readonly Caution[]): number => HEAD + 2 + Math.max(0, ...columnsOf(cautions).map((column) => column.reduce((sum, { height }) => sum + height, 0)));

function Cautions({ cautions, y }: { readonly cautions: readonly Caution[]; readonly y: number }): ReactElement {
  const palette = usePalette();
  const title = 'Before you touch anything';
  return (
    <g>
      <rect x={0.35} y={round(y)} width={area.width - 0.7} height={round(area.height - y - 0.35)} fill="none" stroke={palette.red} strokeWidth={0.7} />
      <path d={`M4 ${round(y + 6.2)} l2.6 -4.4 l2.6 4.4 z`} fill="none" stroke={palette.red} strokeWidth={0.5} />
      <Letters x={6.6} y={y + 5.7} size="small" face="strong" align="middle" fill={palette.red} text="!" />
      <Letters x={12} y={y + 6} face="strong" text={title} />
      <Letters x={12 + widthOf(title, letterSize.body, 'strong') + 4} y={y + 6} size="small" fill={palette.muted} text="This work can kill and can burn a house down." />
      {columnsOf(cautions).map((column, index) => {
        const x = 4 + index * (COLUMN + COLUMN_GAP);
        let at = y + HEAD + letterSize.small;
        return column.map(({ title: head, text, height }) => {
          const top = at;
          at += height;
          return <g key={head}><Letters x={x} y={top} size="small" face="strong" text={head} /><Paragraph x={x} y={top + SMALL} width={COLUMN} size="small" text={text} /></g>;
        });
      })}
    </g>
  );
}
