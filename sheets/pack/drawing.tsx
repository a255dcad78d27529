/** Draws the pack: chains with their voltages, then figures, modes, what is odd, and every piece in full. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { area } from '../frame/page-size.ts';
import { Letters, Paragraph } from '../lettering/letters.tsx';
import { heightOf } from '../lettering/letter-size.ts';
import { NumberText } from '../marks/number-text.tsx';
import type { Page, SheetDrawing } from '../sheet.ts';
import type { TextBlock } from '../text-block.ts';
import { Schedule } from '../table/schedule.tsx';
import { pageTable, tableHeight, tableText, tableWidth } from '../table/table.ts';
import type { Table } from '../table/table.ts';
import { Band } from './chain-drawing.tsx';
import { bandPages, usedBy } from './chain-rows.ts';
import type { ChainBand } from './chain-rows.ts';
import type { PackModel, PackOnSheet } from './model.ts';
import { remarksTable } from './remarks.ts';
import { chainText, classWords, leftOutWords } from './text.ts';
import { figuresTable, modesTable, piecesTable, temperaturesTable } from './tables.ts';

export const packDrawing: SheetDrawing<PackModel> = {
  name: 'pack', title: 'Pack', meaning: 'Modules and what joins them from pack negative to pack positive; voltages, readings, figures, what each mode asks of the cells.',
  pages: (model) => {
    const stacks: Stack[] = [];
    if (model.packs.length === 0) stacks.push(stackOf('', [emptyBlock(model)]));
    model.packs.forEach((pack, index) => stacks.push(...packStacks(model, pack, model.packs.length > 1 ? `pack ${index + 1}` : '')));
    for (const [caption, table] of [['What is odd', remarksTable(model)], ['What each mode asks of the cells', modesTable(model)], ['Pieces of the chains', piecesTable(model)]] as const) append(stacks, caption, table);
    return stacks.map((stack, index): Page => ({
      ...(stacks.length > 1 ? { subtitle: stack.title || (index === 0 ? 'chain and figures' : stack.blocks[0]!.caption) } : {}),
      body: <Stacked blocks={stack.blocks} />, text: [...(index === 0 ? [{ kind: 'heading', text: 'Pack' } as const] : []), ...stack.blocks.flatMap(({ text }) => text)],
    }));
  },
};

/** A piece of a page: what it is, how high, how to draw it from its top. */
interface Block { readonly caption: string; readonly height: number; readonly draw: (y: number) => ReactElement; readonly text: readonly TextBlock[] }
interface Stack { title: string; readonly blocks: Block[]; used: number }

const SPACE = 7;
const CAPTION = 7;

const stackOf = (title: string, blocks: Block[]): Stack => ({ title, blocks, used: blocks.reduce((sum, { height }) => sum + height + SPACE, 0) });

function Stacked({ blocks }: { readonly blocks: readonly Block[] }): ReactElement {
  let y = 0;
  return <g>{blocks.map((block, index) => { const at = y; y += block.height + SPACE; return <g key={index}>{block.draw(at)}</g>; })}</g>;
}

/** Less room than this is not worth beginning a long table in [mm]. */
const WORTH = 50;

/** Under what the page that is begun already shows; what does not fit goes on pages of its own. */
function append(stacks: Stack[], caption: string, table: Table): void {
  if (table.rows.length === 0) return;
  const whole = CAPTION + tableHeight(table);
  const last = stacks.at(-1);
  const room = last ? area.height - last.used : 0;
  const begins = last !== undefined && (whole <= room || room >= WORTH);
  pageTable(table, (index) => (begins && index === 0 ? room : area.height) - CAPTION).forEach((part, index) => {
    const block = tableBlock(index === 0 ? caption : `${caption}, continued`, table, part.rows, CAPTION + part.height);
    if (begins && index === 0) { last.blocks.push(block); last.used += block.height + SPACE; } else stacks.push(stackOf('', [block]));
  });
}

function tableBlock(caption: string, table: Table, rows: Table['rows'], height: number): Block {
  return { caption: caption.toLowerCase(), height, text: [tableText(caption, table, { rows })], draw: (y) => <g><Letters x={0} y={y + 4} face="strong" text={caption} /><Schedule table={table} part={{ rows }} x={0} y={y + CAPTION} /></g> };
}

function emptyBlock(model: PackModel): Block {
  const words = ['No modules are joined to each other yet, so there is no chain to draw. Add the modules with their cells, and the runs between their terminals.', ...leftOutWords(model)].join(' ');
  return { caption: 'pack', height: 8 + heightOf(words, area.width - 4), text: [{ kind: 'paragraph', text: words }], draw: (y) => <Paragraph x={0} y={y + 6} width={area.width - 4} text={words} /> };
}

function packStacks(model: PackModel, pack: PackOnSheet, title: string): Stack[] {
  const words = [classWords(pack), ...pack.joined, ...leftOutWords(model)];
  const head = 12 + words.reduce((sum, text) => sum + heightOf(text, area.width - 4, 'small') + 1, 0);
  const pages = bandPages(pack.chains, area.width, area.height - head, area.height - 2);
  const stacks = pages.map((bands, index): Stack => {
    const height = usedBy(bands) + (index === 0 ? head : 0);
    return stackOf(title, [{
      caption: 'chain', height, text: [...(index === 0 ? words.map((text): TextBlock => ({ kind: 'paragraph', text })) : []), ...bands.filter(({ isContinued }) => !isContinued).flatMap(({ chain }) => chainText(chain))],
      draw: (y) => <Chains model={model} pack={pack} bands={bands} words={index === 0 ? words : undefined} head={head} y={y} title={title} />,
    }]);
  });
  const figures = figuresTable(pack);
  const left = tableWidth(figures) + 8;
  const temperatures = temperaturesTable(pack, area.width - left);
  const block: Block = {
    caption: 'figures', height: CAPTION + Math.max(tableHeight(figures), tableHeight(temperatures)), text: [tableText('Figures', figures), tableText('What temperature makes of it', temperatures)],
    draw: (y) => (
      <g>
        <Letters x={0} y={y + 4} face="strong" text="Figures" /><Schedule table={figures} x={0} y={y + CAPTION} />
        <Letters x={left} y={y + 4} face="strong" text="What temperature makes of it" /><Schedule table={temperatures} x={left} y={y + CAPTION} />
      </g>
    ),
  };
  const last = stacks.at(-1)!;
  if (last.used + block.height <= area.height) { last.blocks.push(block); last.used += block.height + SPACE; } else stacks.push(stackOf(title === '' ? 'figures' : `${title}, figures`, [block]));
  return stacks;
}

function Chains({ model, pack, bands, words, head, y, title }: { readonly model: PackModel; readonly pack: PackOnSheet; readonly bands: readonly ChainBand[]; readonly words: readonly string[] | undefined; readonly head: number; readonly y: number; readonly title: string }): ReactElement {
  const { muted } = usePalette();
  let at = y + 9.5;
  return (
    <g>
      {words && <Letters x={0} y={y + 4} face="strong" text={title === '' ? 'From pack negative to pack positive' : `${title}, from negative to positive`} />}
      {words && <NumberText shown={model.charge} before="charge " x={area.width - 84} y={y + 4} size="small" fill={muted} align="end" />}
      {words && <NumberText shown={model.cellTemperature} before="cells at " x={area.width - 52} y={y + 4} size="small" fill={muted} align="end" />}
      {words && <Letters x={area.width} y={y + 4} size="small" fill={muted} align="end" text="every contact closed, nothing drawn" />}
      {words?.map((text, index) => { const top = at; at += heightOf(text, area.width - 4, 'small') + 1; return <Paragraph key={index} x={0} y={top} width={area.width - 4} size="small" text={text} />; })}
      {bands.map((band) => <Band key={`${band.chain.name} ${band.y}`} band={band} pack={pack} y={y + (words ? head : 0)} />)}
    </g>
  );
}
