/** What the lines and signs of a page mean: one strip along its foot. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { Letters } from '../lettering/letters.tsx';
import { letterSize } from '../lettering/letter-size.ts';
import { widthOf } from '../lettering/measure.ts';
import { round } from '../lettering/round.ts';
import { CentreMark, ThirdAngle } from './symbols.tsx';
import { familyColour, familyLine, HIDDEN, runColour, runLine, STRAIGHT } from './view-drawing.tsx';

type Sign = 'high-voltage part' | 'low-voltage part' | 'mechanical part' | 'hidden' | 'route' | 'high-voltage run' | 'low-voltage run' | 'signal run' | 'wheel' | 'before' | 'after' | 'projection';

const words: Readonly<Record<Sign, string>> = {
  'high-voltage part': 'high voltage', 'low-voltage part': '12 V and signals', 'mechanical part': 'box, frame, load', hidden: 'hidden behind',
  route: 'run on its route', 'high-voltage run': 'high-voltage run, no route given: straight', 'low-voltage run': '12 V run, no route given: straight', 'signal run': 'signal', wheel: 'wheel: its place only',
  before: 'centre of gravity before', after: 'after', projection: 'third-angle',
};
const WIDTH: Readonly<Partial<Record<Sign, number>>> = { projection: 16, before: 5, after: 5 };

/** In the order given, from x; the base line at y. */
export function Legend({ signs, x, y }: { readonly signs: readonly Sign[]; readonly x: number; readonly y: number }): ReactElement {
  let at = x;
  return (
    <g>
      {signs.map((sign) => {
        const left = at;
        const width = WIDTH[sign] ?? 9;
        at += width + 1.5 + widthOf(words[sign], letterSize.small) + 4.5;
        return <g key={sign}><Sample sign={sign} x={left} y={y - 1.1} /><Letters x={left + width + 1.5} y={y} size="small" text={words[sign]} /></g>;
      })}
    </g>
  );
}

function Sample({ sign, x, y }: { readonly sign: Sign; readonly x: number; readonly y: number }): ReactElement {
  const palette = usePalette();
  const line = (colour: string, width: number, dash?: string): ReactElement => <path d={`M${round(x)} ${round(y)} h9`} fill="none" stroke={colour} strokeWidth={width} {...(dash === undefined ? {} : { strokeDasharray: dash })} />;
  const box = (family: 'high_voltage' | 'low_voltage' | 'mechanical'): ReactElement => {
    const { width, dash } = familyLine[family];
    return <rect x={round(x)} y={round(y - 1.8)} width={9} height={3.6} fill={family === 'mechanical' ? 'none' : palette.wash} stroke={familyColour(family, palette)} strokeWidth={width} {...(dash === undefined ? {} : { strokeDasharray: dash })} />;
  };
  switch (sign) {
    case 'high-voltage part': return box('high_voltage');
    case 'low-voltage part': return box('low_voltage');
    case 'mechanical part': return box('mechanical');
    case 'hidden': return line(palette.ink, 0.25, HIDDEN);
    case 'route': return line(palette.highVoltage, runLine.high_voltage);
    case 'high-voltage run': return line(palette.highVoltage, runLine.high_voltage, STRAIGHT);
    case 'low-voltage run': return line(palette.lowVoltage, runLine.low_voltage, STRAIGHT);
    case 'signal run': return line(runColour('signal', palette), runLine.signal, STRAIGHT);
    case 'wheel': return <path d={`M${round(x + 0.5)} ${round(y)} h8 M${round(x + 4.5)} ${round(y - 1.2)} v2.4`} fill="none" stroke={palette.ink} strokeWidth={0.7} />;
    case 'before': return <CentreMark x={x + 2.5} y={y} isAfter={false} />;
    case 'after': return <CentreMark x={x + 2.5} y={y} isAfter />;
    case 'projection': return <ThirdAngle x={x + 1} y={y} />;
  }
}
