/** Cells, fuses, resistors, capacitor, diode, signs of the chassis (IEC 60617), drawn by hand. */
import type { ReactElement } from 'react';
import type { SymbolProps } from './symbol.tsx';
import { LONG_REACH, REACH } from './size.ts';

/** Positive end at the left. Two cells of how many there are. */
export function Battery({ stroke, width }: SymbolProps): ReactElement {
  return (
    <g fill="none" stroke={stroke} strokeWidth={width}>
      <path d={`M${-REACH} 0 H-3 M3 0 H${REACH}`} />
      <path d="M-1.6 0 H1.6" strokeDasharray="0.8 0.6" />
      <path d="M-3 -4 V4 M1.6 -4 V4" strokeWidth={0.35} />
      <path d="M-1.6 -2 V2 M3 -2 V2" strokeWidth={0.9} />
      <path d="M-5.4 -3 h1.8 M-4.5 -3.9 v1.8" strokeWidth={0.25} />
    </g>
  );
}

export function Fuse({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><rect x={-4.2} y={-1.7} width={8.4} height={3.4} /><path d={`M${-REACH} 0 H${REACH}`} /></g>;
}

/** A fuse with its striker: opened by a charge on command. */
export function PyroFuse(props: SymbolProps): ReactElement {
  return <g><Fuse {...props} /><path d="M0.6 -4.4 L-0.8 -2.6 H0.8 L-0.6 -0.6" fill="none" stroke={props.stroke} strokeWidth={0.35} /></g>;
}

export function Resistor({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><rect x={-4.2} y={-1.6} width={8.4} height={3.2} /><path d={`M${-REACH} 0 H-4.2 M4.2 0 H${REACH}`} /></g>;
}

/** Its relay contact, then the resistor. */
export function PrechargeResistor({ stroke, width, isClosed }: SymbolProps): ReactElement {
  return (
    <g fill="none" stroke={stroke} strokeWidth={width}>
      <path d={`M${-LONG_REACH} 0 H-8 L-2.6 ${isClosed === true ? 0 : -3} M-2.6 0 H0`} />
      {isClosed === true && <path d="M-2.6 -1 V1" />}
      <rect x={0} y={-1.6} width={7.6} height={3.2} />
      <path d={`M7.6 0 H${LONG_REACH}`} />
    </g>
  );
}

/** A resistor with two taps for the meter. */
export function Shunt({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><rect x={-4.2} y={-1.6} width={8.4} height={3.2} /><path d={`M${-REACH} 0 H-4.2 M4.2 0 H${REACH}`} /><path d="M-2.6 -1.6 V-3.8 M2.6 -1.6 V-3.8" strokeWidth={0.25} /></g>;
}

/** A capacitor upright between two lines, at x from one to the other. */
export function LinkCapacitor({ stroke, width, x, from, to }: SymbolProps & { readonly x: number; readonly from: number; readonly to: number }): ReactElement {
  const middle = (from + to) / 2;
  const at = (y: number): number => Math.round(y * 100) / 100;
  return <path d={`M${at(x - 1.6)} ${at(from)} H${at(x)} V${at(middle - 0.6)} M${at(x - 1.5)} ${at(middle - 0.6)} h3 M${at(x - 1.5)} ${at(middle + 0.6)} h3 M${at(x)} ${at(middle + 0.6)} V${at(to)} H${at(x - 1.6)}`} fill="none" stroke={stroke} strokeWidth={Math.min(width, 0.35)} />;
}

export function Diode({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><path d={`M${-REACH} 0 H${REACH}`} /><path d="M-2.2 -2.4 L2.2 0 L-2.2 2.4 Z M2.2 -2.4 V2.4" /></g>;
}

/** Joined to the bodywork; hangs down from 0, 0. */
export function Chassis({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><path d="M0 0 V2.6 M-2.6 2.6 H2.6" /><path d="M-2.6 2.6 l-1.2 1.7 M0 2.6 l-1.2 1.7 M2.6 2.6 l-1.2 1.7" strokeWidth={0.25} /></g>;
}

/** Protective earth; hangs down from 0, 0. */
export function ProtectiveEarth({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><path d="M0 0 V2.6 M-2 2.6 H2 M-1.2 3.5 H1.2 M-0.5 4.4 H0.5" /><circle cy={2.7} r={2.7} strokeWidth={0.25} /></g>;
}
