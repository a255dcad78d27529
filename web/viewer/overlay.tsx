/** What lies over the drawing: where the focus is, what is selected, where the probes touch. In millimetres of the page. */
import { memo, useLayoutEffect, useState } from 'react';
import type { ReactElement, ReactNode, RefObject } from 'react';
import { page } from '../../sheets/frame/page-size.ts';
import type { Palette } from '../../sheets/palette.ts';
import type { Box } from './nearest-in-direction.ts';

/** Place of an element on the page [mm]. */
export function boxOn(svg: SVGSVGElement, element: Element): Box {
  const [paper, at] = [svg.getBoundingClientRect(), element.getBoundingClientRect()];
  const scale = paper.width / page.width || 1;
  return { left: (at.left - paper.left) / scale, top: (at.top - paper.top) / scale, right: (at.right - paper.left) / scale, bottom: (at.bottom - paper.top) / scale };
}

interface Over {
  readonly svg: RefObject<SVGSVGElement | null>;
  readonly palette: Palette;
  readonly focused: Element | undefined;
  readonly hovered: Element | undefined;
  readonly selected: string | undefined;
  readonly probes: readonly { readonly point: string; readonly letter: string; readonly colour: string }[];
  /** points and paths that light up: where to look next */
  readonly lit: readonly string[];
  /** changes whenever the drawing did */
  readonly drawn: unknown;
  readonly children?: ReactNode;
}

/** A run is as large as the car: its line is traced, for a frame around it would be around half the drawing. */
interface Traced { readonly d: string; readonly transform: string }

function linesOf(paper: SVGSVGElement, element: Element): readonly (Traced & { readonly of: Element })[] {
  const base = paper.getScreenCTM();
  const lines = [...element.querySelectorAll<SVGGraphicsElement>('path[fill="none"], polyline[fill="none"]')].filter((line) => { const { width, height } = line.getBBox(); return Math.max(width, height) > SHORT; });
  return lines.flatMap((line) => {
    const own = line.getScreenCTM(), points = line.getAttribute('points'), d = points === null ? line.getAttribute('d') : `M${points}`;
    if (!base || !own || d === null) return [];
    const { a, b, c, d: e, e: x, f: y } = base.inverse().multiply(own);
    return [{ of: element, d, transform: `matrix(${[a, b, c, e, x, y].map((value) => value.toFixed(4)).join(' ')})` }];
  });
}
/** What is shorter is framed [mm] */
const SHORT = 12;

interface Found { readonly focus: Box | undefined; readonly hover: Box | undefined; readonly selected: readonly Box[]; readonly traced: readonly Traced[]; readonly lit: readonly Box[]; readonly probes: readonly { readonly box: Box; readonly letter: string; readonly colour: string; readonly point: string }[] }
const nothing: Found = { focus: undefined, hover: undefined, selected: [], traced: [], lit: [], probes: [] };

export const Overlay = memo(function Overlay({ svg, palette, focused, hovered, selected, probes, lit, drawn, children }: Over): ReactElement {
  const [found, setFound] = useState<Found>(nothing);
  useLayoutEffect(() => {
    const paper = svg.current;
    if (!paper) return;
    const box = (element: Element | undefined): Box | undefined => (element?.isConnected ? boxOn(paper, element) : undefined);
    const all = (selector: string): Element[] => [...paper.querySelectorAll(selector)];
    const root = selected?.split('.').slice(0, 2).join('.');
    const chosen = selected === undefined ? [] : [...new Set([root, selected])].flatMap((path) => all(`[data-subject="${CSS.escape(path ?? '')}"]`));
    const lines = root?.startsWith('runs.') ? chosen.flatMap((element) => linesOf(paper, element)) : [];
    const next: Found = {
      focus: box(focused), hover: hovered === focused ? undefined : box(hovered),
      selected: chosen.filter((element) => !lines.some((line) => line.of === element)).map((element) => boxOn(paper, element)), traced: lines.map(({ d, transform }) => ({ d, transform })),
      lit: lit.flatMap((name) => nearestOf(name, lit, (one) => all(`[data-point="${CSS.escape(one)}"],[data-subject="${CSS.escape(one)}"]`).map((element) => boxOn(paper, element)))),
      probes: probes.flatMap((probe) => all(`[data-point="${CSS.escape(probe.point)}"]`).map((element) => ({ ...probe, box: boxOn(paper, element) }))),
    };
    setFound((now) => (JSON.stringify(now) === JSON.stringify(next) ? now : next));
  }, [svg, focused, hovered, selected, probes, lit, drawn]);
  return (
    <svg className="overlay" viewBox={`0 0 ${page.width} ${page.height}`} aria-hidden="true">
      {found.traced.map(({ d, transform }, index) => <path key={index} d={d} transform={transform} fill="none" stroke={palette.mark} strokeWidth={2.4} strokeOpacity={0.4} strokeLinejoin="round" strokeLinecap="round" />)}
      {found.selected.map((box, index) => <Frame key={index} box={box} by={1.2} stroke={palette.mark} width={0.6} />)}
      {found.hover && <Frame box={found.hover} by={0.8} stroke={palette.mark} width={0.3} />}
      {found.focus && <><Frame box={found.focus} by={1.6} stroke={palette.sheet} width={2} /><Frame box={found.focus} by={1.6} stroke={palette.ink} width={0.9} /></>}
      {found.lit.map((box, index) => <Light key={index} box={box} colour={palette.mark} sheet={palette.sheet} />)}
      {found.probes.map(({ box, letter, colour, point }) => <ProbeMark key={`${letter}${point}${box.left}`} x={(box.left + box.right) / 2} y={(box.top + box.bottom) / 2} letter={letter} colour={colour} sheet={palette.sheet} />)}
      {children}
    </svg>
  );
});

function Frame({ box, by, stroke, width }: { readonly box: Box; readonly by: number; readonly stroke: string; readonly width: number }): ReactElement {
  return <rect x={box.left - by} y={box.top - by} width={box.right - box.left + 2 * by} height={box.bottom - box.top + 2 * by} fill="none" stroke={stroke} strokeWidth={width} />;
}

/** What is drawn many times over (the body) lights up where it is nearest to the other one. */
function nearestOf(name: string, lit: readonly string[], boxesOf: (name: string) => readonly Box[]): readonly Box[] {
  const own = boxesOf(name);
  const other = lit.filter((one) => one !== name).flatMap((one) => boxesOf(one));
  const [to] = other;
  if (own.length < 2 || other.length !== 1 || !to) return own;
  const far = ({ left, right, top, bottom }: Box): number => Math.hypot(left + right - to.left - to.right, top + bottom - to.top - to.bottom);
  return [own.reduce((best, box) => (far(box) < far(best) ? box : best))];
}

/** What is larger is framed, not ringed [mm]. */
const LARGE = 9;

/** A ring, or a frame, with four marks around what is to be looked at. */
function Light({ box, colour, sheet }: { readonly box: Box; readonly colour: string; readonly sheet: string }): ReactElement {
  const [x, y] = [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  const isLarge = Math.max(box.right - box.left, box.bottom - box.top) > LARGE;
  const [across, up] = isLarge ? [(box.right - box.left) / 2 + 1.4, (box.bottom - box.top) / 2 + 1.4] : [4.5, 4.5];
  const pens = [{ stroke: sheet, strokeWidth: 2.6 }, { stroke: colour, strokeWidth: 1 }];
  return (
    <g className="light" fill="none">
      {pens.map((pen) => (isLarge ? <rect key={pen.strokeWidth} x={x - across} y={y - up} width={2 * across} height={2 * up} {...pen} strokeWidth={pen.strokeWidth === 1 ? 1 : 1.6} /> : <circle key={pen.strokeWidth} cx={x} cy={y} r={across} {...pen} />))}
      <path d={`M${x} ${y - up - 0.5} v-3 M${x} ${y + up + 0.5} v3 M${x - across - 0.5} ${y} h-3 M${x + across + 0.5} ${y} h3`} stroke={colour} strokeWidth={1} />
    </g>
  );
}

/** A probe tip on the point, with the letter of its lead. */
function ProbeMark({ x, y, letter, colour, sheet }: { readonly x: number; readonly y: number; readonly letter: string; readonly colour: string; readonly sheet: string }): ReactElement {
  return (
    <g>
      <path d={`M${x} ${y} L${x + 4.2} ${y - 7} L${x + 7} ${y - 4.2} Z`} fill={colour} stroke={sheet} strokeWidth={0.3} />
      <circle cx={x + 7.6} cy={y - 7.6} r={3} fill={colour} stroke={sheet} strokeWidth={0.4} />
      <text x={x + 7.6} y={y - 6.4} fontSize={3.6} fontWeight={600} fontFamily="IBM Plex Sans" textAnchor="middle" fill={sheet}>{letter}</text>
    </g>
  );
}
