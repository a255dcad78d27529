/** A diagram as plain data: its head, its blocks laid out over pages, the same in words. */
import type { Car } from '../../core/car/car.ts';
import { area } from '../frame/page-size.ts';
import { layBlocks } from './blocks.ts';
import type { BlockSpec, Source } from './blocks.ts';
import { headHeight } from './head-size.ts';
import type { HeadValues } from './head-size.ts';
import { pageWords } from './model-text.ts';
import type { PageWords } from './model-text.ts';
import { paginate, TITLE } from './pages.ts';
import type { DiagramPage } from './pages.ts';

export interface DiagramModel {
  readonly head: HeadValues;
  readonly pages: readonly DiagramPage[];
  /** as many as pages */
  readonly words: readonly PageWords[];
  readonly isEmpty: boolean;
}

/** @param ordered  how many groups of blocks keep their order (`paginate`) */
export async function diagramModel(car: Car, head: HeadValues, blocks: readonly BlockSpec[], source: Source, ordered: number): Promise<Omit<DiagramModel, 'isEmpty'>> {
  const top = headHeight(head);
  const pages = paginate(await layBlocks(blocks, source, { width: area.width, height: area.height - top - TITLE }), top, ordered);
  return { head, pages, words: pages.map((page) => pageWords(page, car)) };
}
