/** Draws the rows of a chain: modules, links, fuses, contacts and disconnects between pack negative and pack positive. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { area } from '../frame/page-size.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { openLevel } from '../levels.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { NumberText } from '../marks/number-text.tsx';
import { Probe, Subject } from '../marks/subject.tsx';
import type { Palette } from '../palette.ts';
import { BAND_HEAD, BOX_HEIGHT, endPotential, fit, GAP, ROW_PITCH, STUB, TURN } from './chain-rows.ts';
import type { ChainBand, ChainRow, PlacedPiece } from './chain-rows.ts';
import type { ChainModel, PackOnSheet, PieceModel, Potential } from './model.ts';
import { SignMark } from './signs.tsx';

/** Class B a heavy whole line, up to 60 V a light dashed one; orange only where the whole pack is class B. */
export function lineOf(piece: Pick<PieceModel, 'voltageClass'> | undefined, pack: PackOnSheet['voltageClass'], palette: Palette): { readonly stroke: string; readonly strokeWidth: number; readonly strokeDasharray?: string } {
  const stroke = pack === 'A' ? palette.lowVoltage : palette.highVoltage;
  return piece?.voltageClass === 'B' ? { stroke, strokeWidth: 0.7 } : { stroke, strokeWidth: 0.35, strokeDasharray: '2 0.8' };
}

export function Band({ band, pack, y }: { readonly band: ChainBand; readonly pack: PackOnSheet; /** of the page's first band [mm] */ readonly y: number }): ReactElement {
  const { chain, rows } = band;
  const top = y + band.y;
  return (
    <g>
      <BandHead chain={chain} isContinued={band.isContinued} y={top} />
      {rows.map((row, index) => <Row key={index} row={row} chain={chain} pack={pack} y={top + BAND_HEAD + index * ROW_PITCH} turnsDown={index < rows.length - 1} fromPage={index === 0 && band.isContinued} toPage={index === rows.length - 1 && band.continues} />)}
    </g>
  );
}

function BandHead({ chain, isContinued, y }: { readonly chain: ChainModel; readonly isContinued: boolean; readonly y: number }): ReactElement {
  const { muted } = usePalette();
  const name = fit(`String ${chain.name}`, 60, 'strong');
  const words = `${isContinued ? ', continued' : ''}: ${chain.modules} ${chain.modules === 1 ? 'module' : 'modules'} in series`;
  const x = widthOf(name, letterSize.body, 'strong');
  const left = x + widthOf(words, letterSize.body) + 6;
  return (
    <g>
      <Letters x={0} y={y + 5} face="strong" text={name} /><Letters x={x} y={y + 5} text={words} />
      {!isContinued && <NumberText shown={chain.mean} before="mean of the readings per cell " x={left} y={y + 5} size="small" fill={muted} />}
      {!isContinued && <NumberText shown={chain.spread} before="highest minus lowest per cell " x={left + 72} y={y + 5} size="small" fill={muted} />}
      {!isContinued && <NumberText shown={chain.charge} before="charge by the meter " x={left + 144} y={y + 5} size="small" fill={muted} />}
    </g>
  );
}

interface RowProps { readonly row: ChainRow; readonly chain: ChainModel; readonly pack: PackOnSheet; readonly y: number; readonly turnsDown: boolean; readonly fromPage: boolean; readonly toPage: boolean }

function Row({ row, chain, pack, y, turnsDown, fromPage, toPage }: RowProps): ReactElement {
  const palette = usePalette();
  const middle = y + BOX_HEIGHT / 2;
  const way = row.isForward ? 1 : -1;
  const last = row.pieces.at(-1)?.piece;
  const outer = row.isForward ? area.width - 0.5 : 0.5;
  const endOfTail = row.end + way * GAP;
  const line = lineOf(last, pack.voltageClass, palette);
  return (
    <g>
      {row.isFirst && <Stub x={TURN} y={middle} way={1} line={lineOf(row.pieces[0]?.runs[0] ?? row.pieces[0]?.piece, pack.voltageClass, palette)} node={chain.negative} pole="−" potential={chain.start} />}
      {row.pieces.map((placed, index) => <g key={`${placed.piece.name} ${index}`}><Gap placed={placed} before={index === 0 ? undefined : row.pieces[index - 1]!.piece} pack={pack} y={middle} /><PieceMark placed={placed} isForward={row.isForward} pack={pack} y={y} /></g>)}
      {row.isLast && <GapLine runs={row.tail} x={Math.min(row.end, endOfTail)} y={middle} line={line} />}
      {row.isLast && <Stub x={endOfTail} y={middle} way={way} line={line} node={chain.positive} pole="+" potential={endPotential(chain)} />}
      {turnsDown && <path d={`M${round(row.end)} ${round(middle)} H${round(outer)} V${round(middle + ROW_PITCH)} H${round(row.isForward ? area.width - TURN : TURN)}`} fill="none" {...line} />}
      {toPage && <PageMark x={row.end} y={middle} way={way} text="goes on, next page" line={line} />}
      {fromPage && <PageMark x={row.isForward ? TURN : area.width - TURN} y={middle} way={row.isForward ? -1 : 1} text="" line={line} />}
    </g>
  );
}

/** Where the chain begins and ends: its point, its pole, its voltage. */
function Stub({ x, y, way, line, node, pole, potential }: { /** where it meets the chain's first gap, or the last */ readonly x: number; readonly y: number; readonly way: 1 | -1; readonly line: ReturnType<typeof lineOf>; readonly node: string; readonly pole: '−' | '+'; readonly potential: Potential | undefined }): ReactElement {
  const palette = usePalette();
  const isStart = pole === '−';
  const [left, right] = way === 1 ? [x, x + STUB] : [x - STUB, x];
  const tip = isStart ? left + 3 : way === 1 ? right - 3 : left + 3;
  const meet = isStart ? right : x;
  const text = tip < (left + right) / 2 ? { x: left, align: 'start' as const } : { x: right, align: 'end' as const };
  return (
    <g>
      <path d={`M${round(tip)} ${round(y)} H${round(meet)}`} fill="none" {...line} />
      <circle cx={round(tip)} cy={round(y)} r={1.6} fill={palette.sheet} stroke={line.stroke} strokeWidth={0.5} />
      <Probe point={node} x={round(tip)} y={round(y)} colour={line.stroke} />
      <Letters {...text} y={y - 7.2} face="strong" text={isStart ? 'pack −' : 'pack +'} />
      <Letters {...text} y={y - 3.4} size="small" text={fit(node, STUB)} />
      {potential && <NumberText shown={potential.now} {...text} y={y + 5.4} size="small" face="strong" />}
      {potential && potential.highest.text !== potential.now.text && <Letters {...text} y={y + 9.4} size="small" fill={palette.muted} text={rangeOf(potential)} />}
    </g>
  );
}

/** `36 to 50.4 V`; the unit once when both have the same. */
export function rangeOf({ lowest, highest }: Potential): string {
  const [low, high] = [lowest.text.split(' '), highest.text.split(' ')];
  return `${low[1] === high[1] ? low[0] : lowest.text} to ${highest.text}`;
}

function Gap({ placed, before, pack, y }: { readonly placed: PlacedPiece; readonly before: PieceModel | undefined; readonly pack: PackOnSheet; readonly y: number }): ReactElement {
  const palette = usePalette();
  const { runs, gap, label, piece } = placed;
  const carried = runs[0] ?? before ?? (piece.sign === 'module' ? undefined : piece);
  const middle = gap + GAP / 2;
  return (
    <g>
      <GapLine runs={runs} x={gap} y={y} line={lineOf(carried, pack.voltageClass, palette)} />
      {label && <path d={`M${round(middle)} ${round(y + (runs.length > 0 ? 5.2 : 1))} V${round(y + BOX_HEIGHT / 2 + 1)}`} stroke={palette.hairline} strokeWidth={0.18} fill="none" />}
      {label && <NumberText shown={label.now} x={middle} y={y + BOX_HEIGHT / 2 + 4.6} size="small" face="strong" align="middle" />}
      {label && <Letters x={middle} y={y + BOX_HEIGHT / 2 + 8.6} size="small" align="middle" fill={palette.muted} text={rangeOf(label)} />}
    </g>
  );
}

function GapLine({ runs, x, y, line }: { readonly runs: readonly PieceModel[]; readonly x: number; readonly y: number; readonly line: ReturnType<typeof lineOf> }): ReactElement {
  const { muted } = usePalette();
  const wire = <path d={`M${round(x)} ${round(y)} h${GAP}`} fill="none" {...line} />;
  const [first] = runs;
  if (!first) return wire;
  const level = openLevel(runs.map((run) => run.level));
  return (
    <g>
      <Subject path={first.path} label={`${first.kind} ${first.name}, ${first.from} to ${first.to}`}>
        {wire}
        <Letters x={x + GAP / 2} y={y - 1.8} size="small" align="middle" text={fit(runs.map(({ name }) => name).join(' '), GAP - 0.6)} />
        <Letters x={x + GAP / 2} y={y + 4} size="small" align="middle" fill={muted} text={fit(first.kind, GAP - 0.6)} />
      </Subject>
      {level !== undefined && <LevelMark level={level} x={x + GAP / 2} y={y - 6.4} size={2.4} />}
    </g>
  );
}

function PieceMark({ placed, isForward, pack, y }: { readonly placed: PlacedPiece; readonly isForward: boolean; readonly pack: PackOnSheet; readonly y: number }): ReactElement {
  const palette = usePalette();
  const { piece, x, width } = placed;
  const line = lineOf(piece, pack.voltageClass, palette);
  const [middleX, middleY] = [x + width / 2, y + BOX_HEIGHT / 2];
  const [left, right] = isForward ? [piece.from, piece.to] : [piece.to, piece.from];
  return (
    <g>
      {piece.sign === 'module' ? <Module piece={piece} x={x} y={y} width={width} line={line} isForward={isForward} /> : (
        <Subject path={piece.path} label={`${piece.kind} ${piece.name}`}>
          <SignMark sign={piece.sign} hasFuse={piece.hasFuse} x={x} y={middleY} width={width} line={line} />
          <Letters x={middleX} y={y + 5.4} size="small" face="strong" align="middle" text={fit(piece.name, width - 1, 'strong')} />
          <KindWords piece={piece} x={middleX} y={middleY + 7} width={width} />
        </Subject>
      )}
      {piece.level !== undefined && piece.level !== 'holds' && <LevelMark level={piece.level} x={piece.sign === 'module' ? x + width - 2.6 : middleX} y={piece.sign === 'module' ? y + 2.8 : y + 0.4} size={2.6} />}
      <Probe point={left} x={round(x)} y={round(middleY)} colour={line.stroke} />
      <Probe point={right} x={round(x + width)} y={round(middleY)} colour={line.stroke} />
    </g>
  );
}

function KindWords({ piece, x, y, width }: { readonly piece: PieceModel; readonly x: number; readonly y: number; readonly width: number }): ReactElement {
  const { muted } = usePalette();
  const words = piece.kind.split(' ');
  const lines = words.length > 1 ? [words.slice(0, -1).join(' '), words.at(-1)!] : [piece.kind];
  return <>{lines.map((line, index) => <Letters key={index} x={x} y={y + index * 3.8} size="small" align="middle" fill={muted} text={fit(line, width - 0.5)} />)}</>;
}

function Module({ piece, x, y, width, line, isForward }: { readonly piece: PieceModel; readonly x: number; readonly y: number; readonly width: number; readonly line: ReturnType<typeof lineOf>; readonly isForward: boolean }): ReactElement {
  const palette = usePalette();
  const middle = x + width / 2;
  const { cells } = piece;
  const isPlusRight = isForward !== piece.isReversed;
  const reading = cells?.reading;
  const room = width - 2;
  return (
    <g>
      <Subject path={piece.path} label={`module ${piece.name}, ${cells?.words ?? ''}${piece.isReversed ? ', turned round' : ''}`}>
        <rect x={round(x)} y={round(y)} width={width} height={BOX_HEIGHT} fill={palette.wash} {...line} />
        <Letters x={middle} y={y + 4.2} size="small" face="strong" align="middle" text={fit(piece.name, room - 6, 'strong')} />
        <Letters x={middle} y={y + 8.2} size="small" align="middle" fill={palette.muted} text={fit(cells?.words ?? '', room)} />
        <Letters x={x + (isPlusRight ? 1.6 : width - 3.6)} y={y + BOX_HEIGHT - 1.6} size="body" face="strong" text="−" />
        <Letters x={x + (isPlusRight ? width - 3.6 : 1.6)} y={y + BOX_HEIGHT - 1.6} size="body" face="strong" text="+" />
        <Letters x={middle} y={y + BOX_HEIGHT - 1.8} size="small" align="middle" fill={piece.isReversed ? palette.red : palette.ink} text={piece.isReversed ? 'turned round' : piece.voltageClass === undefined ? '—' : `class ${piece.voltageClass}`} />
      </Subject>
      {reading ? <NumberText shown={reading} x={middle} y={y + 13.2} size="small" face="strong" align="middle" /> : <Letters x={middle} y={y + 13.2} size="small" align="middle" fill={palette.muted} text="not measured" />}
      {cells?.deviation && <NumberText shown={cells.deviation} x={middle} y={y + 17.2} size="small" align="middle" />}
    </g>
  );
}

/** A line that goes on on another page. */
function PageMark({ x, y, way, text, line }: { readonly x: number; readonly y: number; readonly way: 1 | -1; readonly text: string; readonly line: ReturnType<typeof lineOf> }): ReactElement {
  const { ink } = usePalette();
  const tip = x + way * 4;
  return (
    <g>
      <path d={`M${round(x)} ${round(y)} H${round(tip)}`} fill="none" {...line} />
      {text !== '' && <path d={`M${round(tip)} ${round(y - 1.2)} l${2.4 * way} 1.2 l${-2.4 * way} 1.2 Z`} fill={ink} />}
      {text !== '' && <Letters x={x} y={y + BOX_HEIGHT / 2 + 4.6} size="small" align={way === 1 ? 'end' : 'start'} text={text} />}
    </g>
  );
}
