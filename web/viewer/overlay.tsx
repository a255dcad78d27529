/** What lies over the drawing: where the focus is, what is selected, where the probes touch. In millimetres of the page. */
import { useLayoutEffect, useState } from 'react';
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
  /** changes whenever the drawing did */
  readonly drawn: unknown;
  readonly children?: ReactNode;
}

interface Found { readonly focus: Box | undefined; readonly hover: Box | undefined; readonly selected: readonly Box[]; readonly probes: readonly { readonly box: Box; readonly letter: string; readonly colour: string; readonly point: string }[] }
const nothing: Found = { focus: undefined, hover: undefined, selected: [], probes: [] };

export function Overlay({ svg, palette, focused, hovered, selected, probes, drawn, children }: Over): ReactElement {
  const [found, setFound] = useState<Found>(nothing);
  useLayoutEffect(() => {
    const paper = svg.current;
    if (!paper) return;
    const box = (element: Element | undefined): Box | undefined => (element?.isConnected ? boxOn(paper, element) : undefined);
    const all = (selector: string): Element[] => [...paper.querySelectorAll(selector)];
    const root = selected?.split('.').slice(0, 2).join('.');
    const next: Found = {
      focus: box(focused), hover: hovered === focused ? undefined : box(hovered),
      selected: selected === undefined ? [] : [...new Set([root, selected])].flatMap((path) => all(`[data-subject="${CSS.escape(path ?? '')}"]`)).map((element) => boxOn(paper, element)),
      probes: probes.flatMap((probe) => all(`[data-point="${CSS.escape(probe.point)}"]`).map((element) => ({ ...probe, box: boxOn(paper, element) }))),
    };
    setFound((now) => (JSON.stringify(now) === JSON.stringify(next) ? now : next));
  }, [svg, focused, hovered, selected, probes, drawn]);
  return (
    <svg className="overlay" viewBox={`0 0 ${page.width} ${page.height}`} aria-hidden="true">
      {found.selected.map((box, index) => <Frame key={index} box={box} by={1.2} stroke={palette.mark} width={0.6} />)}
      {found.hover && <Frame box={found.hover} by={0.8} stroke={palette.mark} width={0.3} />}
      {found.focus && <><Frame box={found.focus} by={1.6} stroke={palette.sheet} width={2} /><Frame box={found.focus} by={1.6} stroke={palette.ink} width={0.9} /></>}
      {found.probes.map(({ box, letter, colour, point }) => <ProbeMark key={`${letter}${point}${box.left}`} x={(box.left + box.right) / 2} y={(box.top + box.bottom) / 2} letter={letter} colour={colour} sheet={palette.sheet} />)}
      {children}
    </svg>
  );
}

function Frame({ box, by, stroke, width }: { readonly box: Box; readonly by: number; readonly stroke: string; readonly width: number }): ReactElement {
  return <rect x={box.left - by} y={box.top - by} width={box.right - box.left + 2 * by} height={box.bottom - box.top + 2 * by} fill="none" stroke={stroke} strokeWidth={width} />;
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
