/** Draws the chains with the number of each joint's step, and the joints beside them. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { area } from '../frame/page-size.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { shorten } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { Probe, Subject } from '../marks/subject.tsx';
import { SignMark } from '../pack/signs.tsx';
import { BAND_HEAD, BOX_HEIGHT, JOINT, PITCH, TURN } from './chain-rows.ts';
import type { Band, PlacedJoint, PlacedPiece, PlacedRow } from './chain-rows.ts';
import type { NumberedJoint } from './model.ts';

export const fit = (text: string, width: number, face: 'sans' | 'strong' = 'sans'): string => shorten(text, width, letterSize.small, face);

/** A circle with the number of a step; a heavy double one where class B begins to be touchable. What is made first without voltage is 0. */
export function StepNumber({ joint, x, y }: { readonly joint: NumberedJoint; readonly x: number; readonly y: number }): ReactElement {
  const palette = usePalette();
  const stroke = joint.isClassB ? palette.highVoltage : palette.ink;
  return (
    <g>
      {joint.isClassB && <circle cx={round(x)} cy={round(y)} r={3.6} fill={palette.sheet} stroke={stroke} strokeWidth={0.3} />}
      <circle cx={round(x)} cy={round(y)} r={2.8} fill={palette.sheet} stroke={stroke} strokeWidth={joint.isClassB ? 0.7 : 0.35} {...(joint.number === 0 ? { strokeDasharray: '1 0.8' } : {})} />
      <Letters x={x} y={y + 1.05} size="small" face={joint.number === 0 ? 'sans' : 'strong'} align="middle" fill={joint.number === 0 ? palette.muted : palette.ink} text={String(joint.number)} />
    </g>
  );
}

interface Line { readonly stroke: string; readonly strokeWidth: number }

export function ChainBand({ band: { name, rows, y, isContinued, goesOn }, isClassB, top }: { readonly band: Band; readonly isClassB: boolean; readonly top: number }): ReactElement {
  const palette = usePalette();
  const line: Line = { stroke: isClassB ? palette.highVoltage : palette.lowVoltage, strokeWidth: 0.5 };
  const start = top + y;
  return (
    <g>
      <Letters x={0} y={start + 4} size="small" face="strong" text={fit(`String ${name}${isContinued ? ', continued' : ''}, from pack negative to pack positive`, area.width, 'strong')} />
      {rows.map((row, index) => <Row key={index} row={row} line={line} y={start + BAND_HEAD + index * PITCH + BOX_HEIGHT / 2} turnsDown={index < rows.length - 1} goesOn={goesOn && index === rows.length - 1} />)}
    </g>
  );
}

function Row({ row, line, y, turnsDown, goesOn }: { readonly row: PlacedRow; readonly line: Line; readonly y: number; readonly turnsDown: boolean; readonly goesOn: boolean }): ReactElement {
  const palette = usePalette();
  const { from, to, isForward } = row;
  const outer = isForward ? area.width - 0.5 : 0.5;
  return (
    <g>
      {turnsDown && <path d={`M${round(to)} ${round(y)} H${round(outer)} V${round(y + PITCH)} H${round(isForward ? area.width - TURN : TURN)}`} fill="none" {...line} />}
      {goesOn && <path d={`M${round(to)} ${round(y)} h${isForward ? 4 : -4}`} fill="none" {...line} />}
      {goesOn && <path d={`M${round(to + (isForward ? 4 : -4))} ${round(y - 1.2)} l${isForward ? 2.4 : -2.4} 1.2 l${isForward ? -2.4 : 2.4} 1.2 Z`} fill={palette.ink} />}
      {!turnsDown && !goesOn && <circle cx={round(to)} cy={round(y)} r={0.9} fill={line.stroke} />}
      <circle cx={round(from)} cy={round(y)} r={0.9} fill={line.stroke} />
      {row.joints.map((placed) => <Joint key={placed.joint.name} placed={placed} line={line} y={y} />)}
      {row.pieces.map((placed) => <Piece key={placed.piece.name} placed={placed} line={line} y={y} isForward={isForward} />)}
    </g>
  );
}

function Joint({ placed: { joint, x }, line, y }: { readonly placed: PlacedJoint; readonly line: Line; readonly y: number }): ReactElement {
  return (
    <Subject path={joint.path} label={jointLabel(joint)}>
      <path d={`M${round(x)} ${round(y)} h${JOINT}`} fill="none" {...line} />
      <StepNumber joint={joint} x={x + JOINT / 2} y={y} />
      <Letters x={x + JOINT / 2} y={y - 5} size="small" align="middle" text={fit(joint.name, JOINT - 0.6)} />
    </Subject>
  );
}

const jointLabel = ({ name, from, to, number }: NumberedJoint): string => `${number === 0 ? 'first, without voltage' : `step ${number}`}: ${name}, ${from} to ${to}`;

function Piece({ placed: { piece, x, width }, line, y, isForward }: { readonly placed: PlacedPiece; readonly line: Line; readonly y: number; readonly isForward: boolean }): ReactElement {
  const palette = usePalette();
  const middle = x + width / 2;
  const top = y - BOX_HEIGHT / 2;
  const [left, right] = isForward ? [piece.from, piece.to] : [piece.to, piece.from];
  const isPlusRight = isForward !== piece.isReversed;
  return (
    <g>
      <Subject path={piece.path} label={`${piece.sign} ${piece.name}${piece.isReversed ? ', turned round' : ''}`}>
        {piece.sign === 'module'
          ? (
            <g>
              <rect x={round(x)} y={round(top)} width={round(width)} height={BOX_HEIGHT} fill={palette.wash} {...line} />
              <Letters x={middle} y={top + 4.6} size="small" face="strong" align="middle" text={fit(piece.name, width - 2, 'strong')} />
              <Letters x={x + (isPlusRight ? 1.6 : width - 3.6)} y={top + BOX_HEIGHT - 1.8} size="body" face="strong" text="−" />
              <Letters x={x + (isPlusRight ? width - 3.6 : 1.6)} y={top + BOX_HEIGHT - 1.8} size="body" face="strong" text="+" />
              {piece.isReversed && <Letters x={middle} y={top + BOX_HEIGHT - 2} size="small" align="middle" fill={palette.red} text="turned" />}
            </g>
          ) : (
            <g>
              <SignMark sign={piece.sign} hasFuse={false} x={x} y={y} width={width} line={line} />
              {!piece.own && <Letters x={middle} y={top + 0.4} size="small" align="middle" text={fit(piece.name, width - 1)} />}
              {piece.own && <Letters x={middle} y={y + 8.4} size="small" align="middle" text={fit(piece.name, width - 1)} />}
            </g>
          )}
      </Subject>
      {piece.own && <Subject path={piece.own.path} label={jointLabel(piece.own)}><StepNumber joint={piece.own} x={middle} y={y - 8.2} /></Subject>}
      <Probe point={left} x={round(x)} y={round(y)} colour={line.stroke} />
      <Probe point={right} x={round(x + width)} y={round(y)} colour={line.stroke} />
    </g>
  );
}

/** Width and height of one joint that lies in no chain [mm]. */
export const BESIDE = { width: 76, height: 9 } as const;

/** Joints with voltage that lie in no chain: what branches off. */
export function Beside({ joints, x, y, width }: { readonly joints: readonly NumberedJoint[]; readonly x: number; readonly y: number; readonly width: number }): ReactElement {
  const columns = Math.max(1, Math.floor(width / BESIDE.width));
  return (
    <g>
      {joints.map((joint, index) => {
        const [left, base] = [x + (index % columns) * BESIDE.width, y + Math.floor(index / columns) * BESIDE.height + 5];
        return (
          <Subject key={joint.name} path={joint.path} label={jointLabel(joint)}>
            <StepNumber joint={joint} x={left + 4} y={base - 1} />
            <Letters x={left + 9.5} y={base} size="small" text={fit(`${joint.name}: ${joint.from} to ${joint.to}`, BESIDE.width - 11)} />
          </Subject>
        );
      })}
    </g>
  );
}

export const besideHeight = (count: number, width: number): number => Math.ceil(count / Math.max(1, Math.floor(width / BESIDE.width))) * BESIDE.height;
