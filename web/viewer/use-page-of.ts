/** Turns to the page on which what is selected is drawn, and brings it into view: findings and cards know the sheet, not the page. */
import { createElement, useEffect, useRef } from 'react';
import type { RefObject } from 'react';
import { flushSync } from 'react-dom';
import { createRoot } from 'react-dom/client';
import { paper } from '../../sheets/palette.ts';
import type { Page } from '../../sheets/sheet.ts';
import type { Study } from '../../study/study.ts';
import { useActs, useBench } from '../bench.ts';
import type { Acts } from '../bench.ts';
import { DrawnPage } from './drawn-page.tsx';

export function usePageOf(svg: RefObject<SVGSVGElement | null>, study: Study, pages: readonly Page[], index: number): void {
  const { show } = useActs();
  const now = useRef({ show, study, pages, index });
  now.current = { show, study, pages, index };
  const selected = useBench('selected'), pointed = useBench('pointed');
  const sheet = study.sheet.name;
  useEffect(() => {
    if (!pointed || pointed.asked === 0) return undefined;
    const [point] = pointed.points;
    const selector = point === undefined ? pointed.subjects.map((path) => `[data-subject="${CSS.escape(path)}"]`).join(',') : `[data-point="${CSS.escape(point)}"]`;
    return selector === '' ? undefined : turnTo(selector, svg, () => now.current, sheet);
    // asked anew each time
  }, [svg, pointed, sheet]);
  useEffect(() => {
    if (selected === undefined) return undefined;
    const selector = [...new Set([selected, selected.split('.').slice(0, 2).join('.')])].map((path) => `[data-subject="${CSS.escape(path)}"]`).join(',');
    return turnTo(selector, svg, () => now.current, sheet);
    // only another selection or another sheet turns the page; whoever turns it by hand afterwards is left alone
  }, [svg, selected, sheet]);
}

interface Now { readonly show: Acts['show']; readonly study: Study; readonly pages: readonly Page[]; readonly index: number }

/** @returns ends it */
function turnTo(selector: string, svg: RefObject<SVGSVGElement | null>, now: () => Now, sheet: Study['sheet']['name']): () => void {
  const timer = setTimeout(() => {
    const there = svg.current?.querySelector(selector);
    if (there) { there.scrollIntoView({ block: 'nearest', inline: 'nearest' }); return; }
    const { study, pages, index, show } = now();
    const at = pageWith(selector, study, pages, index);
    if (at !== undefined) show(sheet, at);
  }, 0);
  return () => clearTimeout(timer);
}

/** First page, other than the shown one, on which something is drawn. */
function pageWith(selector: string, study: Study, pages: readonly Page[], shown: number): number | undefined {
  const place = document.createElement('div');
  const root = createRoot(place);
  const found = pages.findIndex((_, index) => {
    if (index === shown) return false;
    flushSync(() => root.render(createElement(DrawnPage, { study, pages, index, next: '', palette: paper })));
    return place.querySelector(selector) !== null;
  });
  root.unmount();
  return found === -1 ? undefined : found;
}
