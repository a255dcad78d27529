/** Draws a string of the battery: modules in series as one symbol, with the parts that stand between them, positive end on top. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { LevelMark } from '../marks/level-mark.tsx';
import { Probe, Subject } from '../marks/subject.tsx';
import { reachOf } from '../symbols/size.ts';
import { Symbol } from '../symbols/symbol.tsx';
import { AXIS, BETWEEN, namesByLine, TEXT } from './column-mark.ts';
import { Lines, MarkText } from './draw-lines.tsx';
import { lineStyle } from './line-style.ts';
import { NAME_STEP, pieceText, STEP } from './make-mark.ts';
import type { Mark, Slot } from './mark.ts';

export function Column({ mark, references }: { readonly mark: Mark; readonly references: readonly string[] }): ReactElement {
  const palette = usePalette();
  const style = lineStyle(mark.voltage, palette);
  const pen = { stroke: style.stroke, width: 0.5 };
  const last = mark.slots.at(-1);
  return (
    <g>
      <g stroke={style.stroke} strokeWidth={style.width} fill="none">
        {mark.slots.map((slot) => {
          const reach = reachOf(slot.symbol.name);
          const middle = slot.y + slot.height / 2;
          return <path key={slot.top} d={`M${AXIS} ${round(slot.y)} V${round(middle - reach)} M${AXIS} ${round(middle + reach)} V${round(slot.y + slot.height + (slot === last ? 0 : BETWEEN))}`} />;
        })}
        {mark.ports.map(({ id, y }) => <path key={id} d={`M${AXIS} ${round(y)} H${round(mark.width)}`} />)}
      </g>
      {mark.slots.map((slot) => <SlotDrawing key={slot.top} slot={slot} pen={pen} />)}
      {mark.ports.map(({ id, point, y }) => <Probe key={id} point={point} x={AXIS} y={round(y)} colour={style.stroke} />)}
      <Lines lines={mark.lines} references={references} x={0} y={last ? last.y + last.height + 1 : 0} />
    </g>
  );
}

function SlotDrawing({ slot, pen }: { readonly slot: Slot; readonly pen: { readonly stroke: string; readonly width: number } }): ReactElement {
  const palette = usePalette();
  const middle = slot.y + slot.height / 2;
  const names = namesByLine(slot.names);
  const inside = namesByLine(slot.inside);
  const top = slot.y + 1.5;
  const first = slot.parts[0] ?? '';
  const symbol = <Symbol name={slot.symbol.name} x={AXIS} y={round(middle)} turn={90} {...pen} isClosed={slot.symbol.isClosed} />;
  const reach = reachOf(slot.symbol.name);
  const lastName = names.at(-1)?.at(-1);
  const nameEnd = TEXT + (lastName ? lastName.x + widthOf(lastName.text, letterSize.body, 'strong') : 0);
  const linesTop = top + names.length * NAME_STEP;
  return (
    <g>
      <Subject path={`parts.${first}`} label={slot.names.map(({ text }) => text).join(' ')}>{symbol}</Subject>
      {names.map((line, row) => line.map(({ text, path, x }) => {
        const letters = <Letters key={text} x={TEXT + x} y={top + 3.2 + row * NAME_STEP} face="strong" text={text} />;
        return path === undefined ? letters : <Subject key={text} path={path} label={`part ${text}`}>{letters}</Subject>;
      }))}
      {slot.level !== undefined && <LevelMark level={slot.level} x={nameEnd + 2.8} y={top + 2 + (names.length - 1) * NAME_STEP} size={3} />}
      <Lines lines={slot.lines} references={[]} x={TEXT} y={linesTop} />
      {inside.map((line, row) => line.map(({ text, path, x }) => {
        const letters = <Letters key={text} x={TEXT + x} y={linesTop + slot.lines.length * STEP + 3.1 + row * STEP} size="small" fill={palette.muted} text={text} />;
        return path === undefined ? letters : <Subject key={text} path={path} label={`run ${text}`}>{letters}</Subject>;
      }))}
      <Probe point={slot.top} x={AXIS} y={round(middle - reach)} colour={pen.stroke} />
      <Probe point={slot.bottom} x={AXIS} y={round(middle + reach)} colour={pen.stroke} />
      {slot.below.map((wire, index) => {
        const y = slot.y + slot.height + BETWEEN / 2 + 1.1 + (index - (slot.below.length - 1) / 2) * STEP;
        const end = TEXT + widthOf(`${wire.run} `, letterSize.small, 'strong');
        return (
          <g key={wire.run}>
            <Subject path={`runs.${wire.run}`} label={`run ${wire.run}`}><Letters x={TEXT} y={y} size="small" face="strong" fill={pen.stroke} text={wire.run} /></Subject>
            <MarkText line={wire.size} x={end} y={y} fill={palette.muted} />
            {wire.level !== undefined && <LevelMark level={wire.level} x={end + widthOf(pieceText(wire.size), letterSize.small) + 2.4} y={y - 1} size={2.6} />}
          </g>
        );
      })}
    </g>
  );
}
