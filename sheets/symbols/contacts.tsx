/** Contacts and coils (IEC 60617, sections on switching devices), drawn by hand; in the position that they have. */
import type { ReactElement } from 'react';
import type { SymbolProps } from './symbol.tsx';
import { REACH } from './size.ts';

/** The moving blade: on its counterpart, or 5 mm short of it. */
function Blade({ stroke, width, isClosed }: SymbolProps & { readonly isClosed: boolean }): ReactElement {
  return (
    <g fill="none" stroke={stroke} strokeWidth={width}>
      <path d={`M${-REACH} 0 H-3.5 L3.5 ${isClosed ? 0 : -3.6}`} />
      <path d={`M3.5 0 H${REACH}`} />
      {isClosed && <path d="M3.5 -1 V1" />}
    </g>
  );
}

export function MakeContact(props: SymbolProps): ReactElement {
  return <Blade {...props} isClosed={props.isClosed === true} />;
}

/** Closed at rest: the blade lies beyond a short stop. */
export function BreakContact({ stroke, width, isClosed = true }: SymbolProps): ReactElement {
  return (
    <g fill="none" stroke={stroke} strokeWidth={width}>
      <path d={isClosed ? `M${-REACH} 0 H-3.5 L4.2 -1.4` : `M${-REACH} 0 H-3.5 L2.6 -3.8`} />
      <path d={`M3.5 -2 V0 H${REACH}`} />
    </g>
  );
}

/** The half circle at the fixed contact tells a contactor from a plain contact. */
export function Contactor(props: SymbolProps): ReactElement {
  return <g><Blade {...props} isClosed={props.isClosed === true} /><path d="M3.5 -1.1 A1.1 1.1 0 0 1 3.5 1.1" fill="none" stroke={props.stroke} strokeWidth={props.width} /></g>;
}

/** The bar across the fixed contact: it isolates. */
export function Disconnector(props: SymbolProps): ReactElement {
  return <g><Blade {...props} isClosed={props.isClosed !== false} /><path d="M3.5 -1.6 V1.6" fill="none" stroke={props.stroke} strokeWidth={props.width} /><HandAction {...props} x={0} y={props.isClosed === false ? -1.8 : 0} /></g>;
}

export function HandSwitch(props: SymbolProps): ReactElement {
  return <g><Blade {...props} isClosed={props.isClosed === true} /><HandAction {...props} x={0} y={props.isClosed === true ? 0 : -1.8} /></g>;
}

/** Dashed link up to the grip. */
function HandAction({ stroke, x, y }: SymbolProps & { readonly x: number; readonly y: number }): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={0.25}><path d={`M${x} ${y} V-4.2`} strokeDasharray="0.9 0.6" /><path d={`M${x - 1.3} -4.2 H${x + 1.3}`} /></g>;
}

export function Coil({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><rect x={-2.4} y={-4} width={4.8} height={8} /><path d={`M${-REACH} 0 H-2.4 M2.4 0 H${REACH}`} /></g>;
}

/** Pin and socket. */
export function Pins({ stroke, width }: SymbolProps): ReactElement {
  return <g fill="none" stroke={stroke} strokeWidth={width}><path d={`M${-REACH} 0 H-1.2`} /><path d="M1.3 -1.8 A1.9 1.9 0 0 0 1.3 1.8" /><rect x={-2.8} y={-0.55} width={3} height={1.1} fill={stroke} stroke="none" /><path d={`M-0.6 0 H${REACH}`} /></g>;
}

export function Inlet({ stroke, width }: SymbolProps): ReactElement {
  return (
    <g fill="none" stroke={stroke} strokeWidth={width}>
      <circle r={5.2} />
      {[[-2.4, -1], [2.4, -1], [0, -1], [-1.3, 2], [1.3, 2]].map(([x, y]) => <circle key={`${x} ${y}`} cx={x} cy={y} r={0.75} />)}
    </g>
  );
}
