/** Draws the assembly: chain with numbered joints, touchable voltage by step, cautions; then procedure, way back, both orders. */
import type { ReactElement, ReactNode } from 'react';
import { usePalette } from '../drawing-context.ts';
import { area } from '../frame/page-size.ts';
import { heightOf, letterSize } from '../lettering/letter-size.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import { widthOf } from '../lettering/measure.ts';
import { TimePlot } from '../plot/time-plot.tsx';
import { Checklist, checklistPages, spoken } from '../power-up/checklist-pages.tsx';
import type { Page, SheetDrawing } from '../sheet.ts';
import { FlowPage, flowTables, flowText } from '../table/flow.tsx';
import { isHeading, tableText } from '../table/table.ts';
import type { TextBlock } from '../text-block.ts';
import { Beside, besideHeight, ChainBand, StepNumber } from './chain-drawing.tsx';
import { bandPages, usedBy } from './chain-rows.ts';
import type { AssemblyModel, NumberedJoint } from './model.ts';

const LABELS = ['before', 'after'];
const TITLE = 7;
const LEGEND = 9;
const PLOT = { width: 214, most: 92, least: 60 } as const;
const CAUTIONS = { left: PLOT.width + 8, width: area.width - PLOT.width - 8 } as const;

interface Drawn { readonly subtitle: string; readonly body: ReactNode; readonly text: readonly TextBlock[]; /** filled to [mm] */ readonly used: number }

export const assemblyDrawing: SheetDrawing<AssemblyModel> = {
  name: 'assembly', title: 'Assembly', meaning: 'In which order the high-voltage joints are made so that hands meet as little voltage as possible: procedure, readings, touchable voltage by step.',
  pages: (model) => {
    if (model.none !== undefined || !model.procedure) {
      const none = model.none ?? '';
      return [{ body: <g><Letters x={0} y={4} face="strong" text="Assembly" /><Paragraph x={0} y={TITLE + 4} width={240} text={none} /></g>, text: [{ kind: 'heading', text: 'Assembly' }, { kind: 'paragraph', text: none }] }];
    }
    const drawn = [...withState(chainPages(model), model)];
    const procedure = checklistPages('Procedure', model.procedure, 0).map((page): Drawn => ({
      subtitle: 'procedure', used: page.y + TITLE + page.part.height, body: <Checklist page={page} labels={LABELS} boxesOf={(row) => (isHeading(row) ? 0 : 2)} />, text: [tableText('Procedure', page.table, spoken(page.part.rows))],
    }));
    const before = procedure.at(-1)!.used + 6;
    const rest = flowTables(model.sections, area.height, before).map((placed, index): Drawn => ({ subtitle: index === 0 ? 'procedure' : placed.some(({ section }) => section.title === 'Taking apart') ? 'taking apart' : 'both orders', used: 0, body: <FlowPage placed={placed} />, text: flowText(placed) }));
    const [under, ...further] = rest;
    const last = procedure.pop()!;
    const pages = [...drawn, ...procedure, under && under.text.length > 0 ? { ...last, body: <g>{last.body}{under.body}</g>, text: [...last.text, ...under.text] } : last, ...further];
    return pages.map(({ subtitle, body, text }): Page => ({ ...(pages.length > 1 ? { subtitle } : {}), body, text }));
  },
};

/** Sentences, chains and what branches off, over as many pages as they take. */
function chainPages(model: AssemblyModel): readonly Drawn[] {
  const head = TITLE + headHeight([...model.stops, ...model.words]) + LEGEND;
  const pages = bandPages(model.chains, area.width, area.height - head, area.height - 2);
  const drawn = pages.map((bands, index): Drawn => {
    const top = index === 0 ? head : 0;
    return {
      subtitle: 'chain', used: top + usedBy(bands), text: index === 0 ? [{ kind: 'heading', text: 'Assembly' }, ...[...model.stops, ...model.words].map((text): TextBlock => ({ kind: 'paragraph', text })), ...chainText(model)] : [],
      body: <g>{index === 0 && <Head stops={model.stops} words={model.words} />}{bands.map((band) => <ChainBand key={`${band.name} ${band.y}`} band={band} isClassB={model.isClassB} top={top} />)}</g>,
    };
  });
  if (model.beside.length === 0) return drawn;
  const caption = 'Joints that branch off';
  const height = 6 + besideHeight(model.beside.length, area.width);
  const last = drawn.at(-1)!;
  const top = last.used + height <= area.height ? last.used : 0;
  const shown = model.beside.slice(0, Math.floor((area.height - 8) / 9) * 5);
  const block = <g><Letters x={0} y={top + 4} size="small" face="strong" text={caption} /><Beside joints={shown} x={0} y={top + 6} width={area.width} /></g>;
  const text: TextBlock[] = [{ kind: 'list', items: model.beside.map(jointWords) }];
  if (top > 0) return [...drawn.slice(0, -1), { ...last, used: top + height, body: <g>{last.body}{block}</g>, text: [...last.text, ...text] }];
  return [...drawn, { subtitle: 'chain', used: height, body: block, text }];
}

/** Plot and cautions under the chains, or on a page of their own. */
function withState(pages: readonly Drawn[], model: AssemblyModel): readonly Drawn[] {
  const cautions = model.cautions.reduce((sum, { title, text }) => sum + heightOf(`${title} ${text}`, CAUTIONS.width, 'small') + 2.4, TITLE);
  const last = pages.at(-1)!;
  const room = area.height - last.used;
  const fits = room >= Math.max(TITLE + PLOT.least, cautions + 3);
  const top = fits ? last.used : 0;
  const plotHeight = Math.min(PLOT.most, (fits ? room : area.height) - TITLE);
  const body = (
    <g>
      <Letters x={0} y={top + 4} face="strong" text="Highest touchable voltage after each step" />
      {model.plot && <TimePlot plot={model.plot} x={0} y={top + TITLE} width={PLOT.width} height={plotHeight} />}
      <Cautions cautions={model.cautions} y={top} />
    </g>
  );
  const text: TextBlock[] = [{ kind: 'heading', text: 'Cautions' }, { kind: 'list', items: model.cautions.map((caution) => `${caution.title} ${caution.text}`) }];
  if (fits) return [...pages.slice(0, -1), { ...last, body: <g>{last.body}{body}</g>, text: [...last.text, ...text] }];
  return [...pages, { subtitle: 'touchable voltage', used: Math.max(TITLE + plotHeight, cautions + 3), body, text }];
}

const jointWords = ({ name, from, to, number }: NumberedJoint): string => `${number === 0 ? 'First, without voltage' : `Step ${number}`}: ${name}, ${from} to ${to}`;

function chainText({ chains }: AssemblyModel): readonly TextBlock[] {
  return chains.flatMap(({ name, pieces, tail }): TextBlock[] => [
    { kind: 'paragraph', text: `String ${name}, from pack negative to pack positive, with the step of each joint:` },
    { kind: 'list', items: [...pieces.flatMap((piece) => [...piece.before.map(jointWords), `${piece.sign} ${piece.name}${piece.isReversed ? ', turned round' : ''}`, ...(piece.own ? [jointWords(piece.own)] : [])]), ...tail.map(jointWords)] },
  ]);
}

const headHeight = (texts: readonly string[]): number => texts.reduce((sum, text) => sum + heightOf(text, area.width, 'small') + 1, 0);

function Head({ stops, words }: { readonly stops: readonly string[]; readonly words: readonly string[] }): ReactElement {
  const { muted, red } = usePalette();
  let y = TITLE + 3;
  const legend = [
    { joint: { number: 1, isClassB: false }, text: 'step of a joint' },
    { joint: { number: 8, isClassB: true }, text: 'after it class B can be touched' },
    { joint: { number: 0, isClassB: false }, text: 'first, without voltage' },
  ];
  const below = TITLE + headHeight([...stops, ...words]) + 4;
  let x = 4;
  return (
    <g>
      <Letters x={0} y={4} face="strong" text="Order of the high-voltage joints" />
      {[...stops, ...words].map((text, index) => { const at = y; y += heightOf(text, area.width, 'small') + 1; return <Paragraph key={index} x={0} y={at} width={area.width} size="small" {...(index < stops.length ? { fill: red } : {})} text={text} />; })}
      {legend.map(({ joint, text }) => {
        const left = x;
        x += 8 + widthOf(text, letterSize.small) + 10;
        return <g key={text}><StepNumber joint={{ ...joint, name: '', path: '', from: '', to: '' }} x={left} y={below} /><Letters x={left + 5.5} y={below + 1.05} size="small" fill={muted} text={text} /></g>;
      })}
    </g>
  );
}

function Cautions({ cautions, y }: { readonly cautions: AssemblyModel['cautions']; readonly y: number }): ReactElement {
  let at = y + TITLE + 3;
  return (
    <g>
      <Letters x={CAUTIONS.left} y={y + 4} face="strong" text="Cautions" />
      {cautions.map(({ title, text }) => {
        const top = at;
        at += heightOf(`${title} ${text}`, CAUTIONS.width, 'small') + 2.4;
        return <Paragraph key={title} x={CAUTIONS.left} y={top} width={CAUTIONS.width} size="small" text={`${title} ${text}`} />;
      })}
    </g>
  );
}
