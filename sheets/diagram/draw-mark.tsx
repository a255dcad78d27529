/** Draws one node of a diagram: its symbol with name, numbers, terminals, what goes to the bodywork, and where else it stands. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { Probe, Subject } from '../marks/subject.tsx';
import { Chassis, LinkCapacitor, ProtectiveEarth } from '../symbols/passive.tsx';
import { reachOf } from '../symbols/size.ts';
import { Symbol } from '../symbols/symbol.tsx';
import { Column } from './draw-column.tsx';
import { Lines, MarkText } from './draw-lines.tsx';
import { lineStyle } from './line-style.ts';
import { besideOf, CAPACITOR, GROUND_BELOW, INSET, NAME_STEP, pieceText, upperOf } from './make-mark.ts';
import type { Mark, MarkGround } from './mark.ts';
import { portName } from './port-name.ts';

interface Drawn { readonly mark: Mark; readonly references: readonly string[] }

/** In the mark's own coordinates. */
export function MarkDrawing({ mark, references }: Drawn): ReactElement {
  switch (mark.form) {
    case 'inline': return <Inline mark={mark} references={references} />;
    case 'end': return <End mark={mark} references={references} />;
    case 'bar': return <Bar mark={mark} references={references} />;
    case 'box': return <Box mark={mark} references={references} />;
    case 'column': return <Column mark={mark} references={references} />;
  }
}

/** Base line of the first name. */
const RISE = 3.5;

function Name({ mark, x = 0 }: { readonly mark: Mark; readonly x?: number }): ReactElement {
  const palette = usePalette();
  const last = mark.name.at(-1) ?? '';
  return (
    <g>
      {mark.name.map((line, index) => <Letters key={index} x={x} y={RISE + index * NAME_STEP} face="strong" fill={mark.isOff ? palette.muted : palette.ink} text={line} />)}
      {mark.level !== undefined && <LevelMark level={mark.level} x={x + widthOf(last, letterSize.body, 'strong') + 2.8} y={RISE - 1.2 + (mark.name.length - 1) * NAME_STEP} size={3} />}
    </g>
  );
}

function useStroke(mark: Mark): { readonly stroke: string; readonly width: number } {
  const palette = usePalette();
  const style = lineStyle(mark.voltage, palette);
  return { stroke: mark.isOff ? palette.muted : style.stroke, width: Math.min(style.width, 0.5) };
}

/** Symbol in the middle of its lead, or at the side where the bodywork's sign leaves it room. */
function Inline({ mark, references }: Drawn): ReactElement {
  const palette = usePalette();
  const pen = useStroke(mark);
  const reach = reachOf(mark.symbol.name);
  const ground = mark.grounds[0];
  const isWestGround = ground !== undefined && ground.x > mark.width / 2 && mark.ports.some(({ side }) => side === 'east');
  const middle = ground === undefined ? mark.width / 2 : isWestGround ? mark.width - 3 - reach : 3 + reach;
  const style = lineStyle(mark.voltage, palette);
  const has = (side: 'west' | 'east'): boolean => mark.ports.some((port) => port.side === side);
  return (
    <g>
      <g stroke={pen.stroke} strokeWidth={style.width} fill="none">
        {has('west') && <path d={`M0 ${round(mark.axis)} H${round(middle - reach)}`} />}
        {has('east') && <path d={`M${round(middle + reach)} ${round(mark.axis)} H${round(mark.width)}`} />}
      </g>
      <Subject path={mark.path} label={mark.label}>
        <rect x={0} y={0} width={round(mark.width)} height={round(mark.axis + 4.6)} fill={palette.sheet} fillOpacity={0} />
        <Name mark={mark} />
        <Symbol name={mark.symbol.name} x={round(middle)} y={round(mark.axis)} turn={isFlipped(mark) ? 180 : 0} {...pen} isClosed={mark.symbol.isClosed} />
      </Subject>
      {ground && <Ground ground={ground} y={mark.axis} isLeft={isWestGround} voltage={mark.voltage} lead={isWestGround ? -2 : 2} />}
      {mark.ports.map((port) => <Probe key={port.id} point={port.point} x={round(port.side === 'west' ? middle - reach : middle + reach)} y={round(port.y)} colour={pen.stroke} />)}
      <Lines lines={mark.lines} references={references} x={0} y={mark.axis + (ground ? GROUND_BELOW : 4.6)} isOff={mark.isOff} />
    </g>
  );
}

/** Symbol at the left, lettering beside it; what goes on from it is drawn elsewhere. */
function End({ mark, references }: Drawn): ReactElement {
  const palette = usePalette();
  const pen = useStroke(mark);
  const reach = reachOf(mark.symbol.name);
  const middle = 2 + reach;
  const beside = besideOf(mark.symbol.name);
  return (
    <g>
      <path d={`M0 ${round(mark.axis)} H2`} stroke={pen.stroke} strokeWidth={lineStyle(mark.voltage, palette).width} fill="none" />
      <Subject path={mark.path} label={mark.label}>
        <Name mark={mark} x={beside} />
        <Symbol name={mark.symbol.name} x={round(middle)} y={round(mark.axis)} {...pen} isClosed={mark.symbol.isClosed} />
      </Subject>
      {mark.ports.map((port) => <Probe key={port.id} point={port.point} x={2} y={round(port.y)} colour={pen.stroke} />)}
      <Lines lines={mark.lines} references={references} x={beside} y={mark.name.length * NAME_STEP} isOff={mark.isOff} />
    </g>
  );
}

/** A battery's symbol has its positive end at the left; where that goes to the right it is turned. */
function isFlipped({ symbol, ports, grounds }: Mark): boolean {
  if (symbol.name !== 'battery') return false;
  return ports.some(({ side, name }) => side === 'east' && name.startsWith('pos')) || grounds.some(({ point, x }) => point.endsWith('.neg') && x > 20);
}

function Bar({ mark, references }: Drawn): ReactElement {
  const palette = usePalette();
  const pen = useStroke(mark);
  const style = lineStyle(mark.voltage, palette);
  const middle = round(barMiddle(mark));
  return (
    <g>
      {mark.ports.map(({ id, side, y }) => <path key={id} d={`M${side === 'west' ? 0 : round(mark.width)} ${round(y)} H${middle}`} stroke={pen.stroke} strokeWidth={style.width} fill="none" />)}
      <Subject path={mark.path} label={mark.label}>
        <Name mark={mark} />
        <rect x={round(middle - 0.9)} y={round(mark.axis)} width={1.8} height={round(mark.body)} fill={pen.stroke} />
      </Subject>
      {mark.ports.map((port) => <Probe key={port.id} point={port.point} x={middle} y={round(port.y)} colour={pen.stroke} />)}
      {mark.grounds.map((ground) => <g key={ground.run}><path d={`M${middle} ${round(mark.axis + mark.body)} V${round(mark.height - 11)} H${round(ground.x)} V${round(mark.height - 9)}`} stroke={pen.stroke} strokeWidth={style.width} fill="none" /><Ground ground={ground} y={mark.height - 9} voltage={mark.voltage} /></g>)}
      <Lines lines={mark.lines} references={references} x={0} y={mark.axis + mark.body + 0.6} />
    </g>
  );
}

const barMiddle = ({ width, grounds }: Mark): number => (grounds.length > 0 ? (grounds[0] as MarkGround).x : width / 2);

function Box({ mark, references }: Drawn): ReactElement {
  const palette = usePalette();
  const pen = useStroke(mark);
  const upper = upperOf(mark);
  const named = (side: 'west' | 'east'): number => Math.max(0, ...mark.ports.filter((port) => port.side === side).map(({ name }) => widthOf(name, letterSize.small)));
  const [left, right] = [named('west'), named('east')];
  const { capacitor } = mark;
  const middle = (left + INSET + (capacitor ? CAPACITOR : 0) + mark.width - right - INSET) / 2;
  const bottom = mark.axis + mark.body;
  return (
    <g>
      <Subject path={mark.path} label={mark.label}>
        <Name mark={mark} />
        <rect x={0} y={round(mark.axis)} width={round(mark.width)} height={round(mark.body)} fill={palette.sheet} stroke={pen.stroke} strokeWidth={pen.width} {...(mark.isOff ? { strokeDasharray: '1.6 1' } : {})} />
        <Symbol name={mark.symbol.name} x={round(middle)} y={round(mark.axis + upper / 2 + 0.3)} {...pen} isClosed={mark.symbol.isClosed} />
      </Subject>
      {capacitor && <LinkCapacitor {...pen} {...capacitor} />}
      {mark.ports.map((port) => (
        <g key={port.id}>
          <Letters x={port.side === 'west' ? INSET : mark.width - INSET} y={port.y + 1.1} size="small" align={port.side === 'west' ? 'start' : 'end'} fill={palette.muted} text={port.name} />
          <Probe point={port.point} x={port.side === 'west' ? 0 : round(mark.width)} y={round(port.y)} colour={lineStyle(port.voltage, palette).stroke} />
        </g>
      ))}
      <Lines lines={mark.lines} references={references} x={INSET} y={mark.axis + upper + 0.4} isOff={mark.isOff} />
      {mark.grounds.map((ground) => <g key={ground.run}><Letters x={ground.x - 2.6} y={bottom - 1.2} size="small" fill={palette.muted} text={portName(ground.point)} /><Ground ground={ground} y={bottom} voltage="low" lead={0} /></g>)}
    </g>
  );
}

/** The sign of the chassis hanging from `ground.x`, `y`, with the run that leads there and the bolt on which it ends. */
function Ground({ ground, y, isLeft = false, voltage, lead = 0 }: { readonly ground: MarkGround; readonly y: number; readonly isLeft?: boolean; readonly voltage: Mark['voltage']; readonly lead?: number }): ReactElement {
  const palette = usePalette();
  const style = lineStyle(voltage, palette);
  const x = ground.x + lead;
  const text = isLeft ? x - 5.2 : x + 4.4;
  const align = isLeft ? 'end' as const : 'start' as const;
  const name = `${ground.run} `;
  const width = widthOf(`${name}${pieceText(ground.size)}`, letterSize.small);
  const start = isLeft ? text - width : text;
  const end = start + width;
  return (
    <g>
      {lead !== 0 && <path d={`M${round(ground.x)} ${round(y)} H${round(x)}`} stroke={style.stroke} strokeWidth={style.width} fill="none" />}
      <Subject path={`runs.${ground.run}`} label={`run ${ground.run} to the bodywork at ${ground.stud}`}>
        <g transform={`translate(${round(x)} ${round(y)})`}>{ground.isEarth ? <ProtectiveEarth stroke={style.stroke} width={0.4} /> : <Chassis stroke={style.stroke} width={0.4} />}</g>
        <Letters x={start} y={y + 3.6} size="small" text={ground.run} />
      </Subject>
      <MarkText line={ground.size} x={start + widthOf(name, letterSize.small)} y={y + 3.6} fill={palette.muted} />
      {ground.level !== undefined && <LevelMark level={ground.level} x={end + 2.2} y={y + 2.6} size={2.6} />}
      <Subject path={`parts.${ground.stud}`} label={`ground ${ground.stud}`}><Letters x={text} y={y + 7.6} size="small" align={align} fill={palette.muted} text={ground.stud} /></Subject>
      <Probe point={ground.point} x={round(ground.x)} y={round(y)} colour={style.stroke} />
      <Probe point={ground.studPoint} x={round(x)} y={round(y + 2.6)} colour={style.stroke} />
    </g>
  );
}
