/** Converters, machines, lamps, heaters and boxes with a function (IEC 60617), drawn by hand, about 0, 0. */
import type { ReactElement } from 'react';
import { Letters } from '../lettering/letters.tsx';
import type { SymbolProps } from './symbol.tsx';
import { REACH, SQUARE } from './size.ts';

const HALF = SQUARE / 2;

type Current = 'direct' | 'alternating';

/** A square with its diagonal: what goes in at the upper left, what comes out at the lower right. */
function Converter({ stroke, width, from, to }: SymbolProps & { readonly from: Current; readonly to: Current }): ReactElement {
  return (
    <g fill="none" stroke={stroke} strokeWidth={width}>
      <rect x={-HALF} y={-HALF} width={SQUARE} height={SQUARE} />
      <path d={`M${-HALF} ${HALF} L${HALF} ${-HALF}`} />
      <CurrentSign stroke={stroke} x={-2.9} y={-3.3} current={from} />
      <CurrentSign stroke={stroke} x={2.9} y={3.3} current={to} />
    </g>
  );
}

function CurrentSign({ stroke, x, y, current }: { readonly stroke: string; readonly x: number; readonly y: number; readonly current: Current }): ReactElement {
  return current === 'direct'
    ? <g stroke={stroke} strokeWidth={0.35}><path d={`M${x - 2} ${y - 0.6} h4`} /><path d={`M${x - 2} ${y + 0.7} h4`} strokeDasharray="0.9 0.65" /></g>
    : <path d={`M${x - 2} ${y} q1 -2.4 2 0 t2 0`} stroke={stroke} strokeWidth={0.4} fill="none" />;
}

export const DirectToDirect = (props: SymbolProps): ReactElement => <Converter {...props} from="direct" to="direct" />;
export const AlternatingToDirect = (props: SymbolProps): ReactElement => <Converter {...props} from="alternating" to="direct" />;
export const DirectToAlternating = (props: SymbolProps): ReactElement => <Converter {...props} from="direct" to="alternating" />;

/** An inverter and the machine that it drives. */
export function Drive(props: SymbolProps): ReactElement {
  return (
    <g>
      <g transform="translate(-8 0)"><DirectToAlternating {...props} /></g>
      <path d="M-1.5 -2 H3.2 M-1.5 0 H2.6 M-1.5 2 H3.2" stroke={props.stroke} strokeWidth={0.25} fill="none" />
      <circle cx={8} r={5.5} fill="none" stroke={props.stroke} strokeWidth={props.width} />
      <Letters x={8} y={0.4} align="middle" text="M" fill={props.stroke} />
      <Letters x={8} y={3.8} align="middle" size="small" text="3~" fill={props.stroke} />
    </g>
  );
}

/** A motor with the arrow of what it moves. */
export function Pump({ stroke, width }: SymbolProps): ReactElement {
  return <g><Round stroke={stroke} width={width} /><Letters x={-0.4} y={0.9} align="middle" size="small" text="M" fill={stroke} /><path d="M-1.4 2.2 h2.2 m-0.9 -0.8 l0.9 0.8 l-0.9 0.8" fill="none" stroke={stroke} strokeWidth={0.25} /></g>;
}

export function Lamp({ stroke, width }: SymbolProps): ReactElement {
  return <g><Round stroke={stroke} width={width} /><path d="M-2.83 -2.83 L2.83 2.83 M-2.83 2.83 L2.83 -2.83" fill="none" stroke={stroke} strokeWidth={width} /></g>;
}

function Round({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><circle r={4} /><path d={`M${-REACH} 0 H-4 M4 0 H${REACH}`} /></g>;
}

/** Something that takes current and is not told more closely. */
export function Load({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><rect x={-4.2} y={-2.4} width={8.4} height={4.8} /><path d={`M${-REACH} 0 H-4.2 M4.2 0 H${REACH}`} /><path d="M-4.2 2.4 L4.2 -2.4" strokeWidth={0.25} /></g>;
}

export function Heater({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><rect x={-8} y={-3} width={16} height={6} /><path d="M-4.8 -3 V3 M-1.6 -3 V3 M1.6 -3 V3 M4.8 -3 V3" /></g>;
}

/** A motor, and the circle of a compressor that narrows in the direction of flow. */
export function Compressor({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><circle r={5.5} /><path d="M-4.4 -3.3 L5.2 -1.6 M-4.4 3.3 L5.2 1.6" /><Letters x={-0.6} y={1.2} align="middle" size="small" text="M" fill={stroke} /></g>;
}

export function IsolationMonitor({ stroke, width }: SymbolProps): ReactElement {
  return (
    <g>
      <rect x={-HALF} y={-5} width={SQUARE} height={10} fill="none" stroke={stroke} strokeWidth={width} />
      <Letters x={0} y={-0.6} align="middle" text="R <" fill={stroke} />
      <path d="M0 0.8 V2.2 M-1.8 2.2 H1.8 M-1.8 2.2 l-0.8 1.3 M0 2.2 l-0.8 1.3 M1.8 2.2 l-0.8 1.3" fill="none" stroke={stroke} strokeWidth={0.25} />
    </g>
  );
}
