/** Draws the blocks of one page of a diagram. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { Subject } from '../marks/subject.tsx';
import type { Wire } from './blocks.ts';
import { MarkText } from './draw-lines.tsx';
import { MarkDrawing } from './draw-mark.tsx';
import { lineStyle } from './line-style.ts';
import type { DiagramPage } from './pages.ts';

export function Diagram({ page }: { readonly page: DiagramPage }): ReactElement {
  const palette = usePalette();
  return (
    <g>
      {page.blocks.map((block, index) => (
        <g key={index} transform={`translate(${round(block.x)} ${round(block.y)})`}>
          {block.title !== '' && <Letters x={0} y={-2.2} fill={palette.muted} text={block.title} />}
          {block.title !== '' && <path d={`M0 -1 H${round(Math.max(20, Math.min(block.width, widthOf(block.title, letterSize.body))))}`} stroke={palette.hairline} strokeWidth={0.18} fill="none" />}
          {block.wires.map((wire) => <WireLine key={wire.run} wire={wire} />)}
          {block.marks.map(({ mark, x, y, references }) => <g key={mark.id} transform={`translate(${round(x)} ${round(y)})`}><MarkDrawing mark={mark} references={references} /></g>)}
          {block.wires.map((wire) => <WireLabel key={wire.run} wire={wire} />)}
        </g>
      ))}
    </g>
  );
}

function WireLine({ wire }: { readonly wire: Wire }): ReactElement {
  const palette = usePalette();
  const { stroke, width, dash, word } = lineStyle(wire.voltage, palette);
  return (
    <Subject path={`runs.${wire.run}`} label={`run ${wire.run}, ${word}`}>
      <polyline points={wire.points.map(({ x, y }) => `${round(x)},${round(y)}`).join(' ')} fill="none" stroke={stroke} strokeWidth={width} {...(dash === undefined ? {} : { strokeDasharray: dash })} />
      {wire.junctions.map(({ x, y }) => <circle key={`${x} ${y}`} cx={round(x)} cy={round(y)} r={0.7} fill={stroke} />)}
    </Subject>
  );
}

/** Name over the line, size under it. */
function WireLabel({ wire: { run, text, label, voltage } }: { readonly wire: Wire }): ReactElement {
  const palette = usePalette();
  const half = widthOf(run, letterSize.small, 'strong') / 2;
  const shift = text.level === undefined ? 0 : 1.8;
  return (
    <g>
      <Subject path={`runs.${run}`} label={`run ${run}`}><Letters x={label.x - shift} y={label.y - 1.2} size="small" face="strong" align="middle" fill={lineStyle(voltage, palette).stroke} text={run} /></Subject>
      {text.level !== undefined && <LevelMark level={text.level} x={round(label.x - shift + half + 2)} y={round(label.y - 2.3)} size={2.6} />}
      <MarkText line={text.size} x={label.x} y={label.y + 3.7} align="middle" fill={palette.muted} />
    </g>
  );
}
