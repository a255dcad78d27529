/** Signs of IEC 60617 for what lies between modules: fuse, make contact, disconnect by hand, anything else a plain box. */
import type { ReactElement } from 'react';
import { usePalette } from '../drawing-context.ts';
import { round } from '../lettering/round.ts';
import type { Sign } from './chain.ts';

interface Line { readonly stroke: string; readonly strokeWidth: number; readonly strokeDasharray?: string }

/** From x to x + width along y; the sign stands in the middle. */
export function SignMark({ sign, hasFuse, x, y, width, line }: { readonly sign: Sign; readonly hasFuse: boolean; readonly x: number; readonly y: number; readonly width: number; readonly line: Line }): ReactElement {
  const { ink, sheet } = usePalette();
  const middle = x + width / 2;
  const right = x + width;
  const thin = { stroke: ink, strokeWidth: 0.35, fill: 'none' };
  const wire = (d: string): ReactElement => <path d={d} fill="none" {...line} />;
  switch (sign) {
    case 'fuse':
      return <g><rect x={round(middle - 5)} y={round(y - 2)} width={10} height={4} fill={sheet} stroke={ink} strokeWidth={0.35} />{wire(`M${round(x)} ${round(y)} H${round(right)}`)}</g>;
    case 'contact':
      return <g>{wire(`M${round(x)} ${round(y)} H${round(middle - 4)} M${round(middle + 4)} ${round(y)} H${round(right)}`)}<path d={`M${round(middle - 4)} ${round(y)} L${round(middle + 3.4)} ${round(y - 3.8)}`} {...thin} strokeWidth={0.5} /></g>;
    case 'disconnect': {
      const at = hasFuse ? middle - 4.5 : middle;
      return (
        <g>
          {wire(`M${round(x)} ${round(y)} H${round(at - 3.5)} M${round(at + 3.5)} ${round(y)} H${round(right)}`)}
          <path d={`M${round(at - 3.5)} ${round(y)} L${round(at + 3)} ${round(y - 3.6)} M${round(at + 3.5)} ${round(y - 1.6)} v3.2 M${round(at - 0.2)} ${round(y - 1.9)} v-3 M${round(at - 1.8)} ${round(y - 4.9)} h3.2`} {...thin} />
          {hasFuse && <rect x={round(middle + 2)} y={round(y - 1.6)} width={7} height={3.2} fill="none" stroke={ink} strokeWidth={0.35} />}
        </g>
      );
    }
    default:
      return <g>{wire(`M${round(x)} ${round(y)} H${round(right)}`)}<rect x={round(middle - 5)} y={round(y - 2.6)} width={10} height={5.2} fill={sheet} stroke={ink} strokeWidth={0.35} /></g>;
  }
}
