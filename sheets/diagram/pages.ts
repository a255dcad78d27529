/** Blocks side by side on pages, and on each part where else it stands. */
import { area } from '../frame/page-size.ts';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import type { Block } from './blocks.ts';
import { zoneOf } from './zone.ts';

export interface PlacedBlock extends Omit<Block, 'marks'> {
  readonly x: number; readonly y: number;
  readonly marks: readonly (Block['marks'][number] & { readonly references: readonly string[] })[];
}
export interface DiagramPage { readonly title: string; readonly blocks: readonly PlacedBlock[] }

/** above a block, for its title [mm] */
export const TITLE = 6.5;
const GAP = { x: 9, y: 5 };

interface Spot { readonly block: Block; readonly x: number; readonly y: number }
interface Draft { readonly title: string; readonly blocks: Spot[] }

/**
 * @param top  kept free at the head of each page [mm]
 * @param ordered  so many groups (what begins with a page of its own) keep their order, also where that takes more pages
 */
export function paginate(blocks: readonly Block[], top: number, ordered = 0): readonly DiagramPage[] {
  const pages: Draft[] = [];
  let open: Draft[] = [];
  for (const block of tallFirst(blocks, ordered)) {
    if (block.startsPage !== undefined || pages.length === 0) {
      const page: Draft = { title: block.startsPage ?? '', blocks: [] };
      pages.push(page);
      open = [page];
    }
    if (open.some((page) => put(block, page, top))) continue;
    const page: Draft = { title: open[0]!.title, blocks: [] };
    pages.push(page);
    open = [...open, page];
    // what is larger than the paper all the same stands on a page of its own
    if (!put(block, page, top)) page.blocks.push({ block, x: 0, y: top + TITLE });
  }
  return withReferences(pages);
}

/** Within what starts with one page title the tall blocks go first: the small ones find room beside them. */
function tallFirst(blocks: readonly Block[], ordered: number): readonly Block[] {
  const groups: { title: string | undefined; blocks: Block[] }[] = [];
  for (const block of blocks) {
    if (block.startsPage !== undefined || groups.length === 0) groups.push({ title: block.startsPage, blocks: [block] });
    else groups.at(-1)!.blocks.push(block);
  }
  return groups.flatMap(({ title, blocks: own }, group) => (group < ordered ? own : [...own].sort((a, b) => b.height - a.height)).map((block, index): Block => {
    const { startsPage: _, ...rest } = block;
    return index === 0 && title !== undefined ? { ...rest, startsPage: title } : rest;
  }));
}

/** At the highest free place, and there at the leftmost; only places beside or below what stands there already are looked at. */
function put(block: Block, page: Draft, top: number): boolean {
  const wide = widthOfBlock(block);
  const boxes = page.blocks.map((spot) => ({ left: spot.x, right: spot.x + widthOfBlock(spot.block) + GAP.x, top: spot.y - TITLE, bottom: spot.y + spot.block.height + GAP.y }));
  const rows = [...new Set([top, ...boxes.map(({ bottom }) => bottom)])].sort((a, b) => a - b);
  const columns = [...new Set([0, ...boxes.map(({ right }) => right)])].sort((a, b) => a - b);
  for (const y of rows) {
    const bottom = y + TITLE + block.height;
    if (bottom > area.height) break;
    const x = columns.find((left) => left + wide <= area.width && boxes.every((box) => left >= box.right || left + wide + GAP.x <= box.left || y >= box.bottom || bottom + GAP.y <= box.top));
    if (x === undefined) continue;
    page.blocks.push({ block, x, y: y + TITLE });
    return true;
  }
  return false;
}

const widthOfBlock = ({ width, title }: Block): number => Math.max(width, widthOf(title, letterSize.body));

function withReferences(pages: readonly Draft[]): readonly DiagramPage[] {
  const stands = new Map<string, { readonly page: number; readonly block: Block; readonly zone: string }[]>();
  pages.forEach((page, index) => page.blocks.forEach(({ block, x, y }) => block.marks.forEach(({ mark, x: dx, y: dy }) => {
    const list = stands.get(mark.id) ?? [];
    list.push({ page: index, block, zone: zoneOf(x + dx + mark.width / 2, y + dy + mark.height / 2) });
    stands.set(mark.id, list);
  })));
  return pages.map((page, index) => ({
    title: page.title,
    blocks: page.blocks.map(({ block, x, y }) => ({
      ...block, x, y,
      marks: block.marks.map((placed) => {
        const others = (stands.get(placed.mark.id) ?? []).filter((one) => one.block !== block).map((one) => (one.page === index ? `also in ${one.zone}` : `to page ${one.page + 1}, ${one.zone}`));
        const kept = placed.mark.referenceLines;
        return { ...placed, references: others.length <= kept ? others : [...others.slice(0, Math.max(0, kept - 1)), ...(kept > 0 ? [`and ${others.length - kept + 1} more`] : [])] };
      }),
    })),
  }));
}
