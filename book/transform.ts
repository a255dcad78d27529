/** The transforms that sheets may use, as matrices. */
import { readNumbers } from './read-number.ts';

/** a b c d e f as in SVG and PDF: x' = a x + c y + e, y' = b x + d y + f */
export type Matrix = readonly [number, number, number, number, number, number];

/**
 * `translate(x y) rotate(angle x y) scale(x y)`, in their order.
 * @throws Error on any other transform
 */
export function readTransforms(text: string): readonly Matrix[] {
  const rest = text.replace(/\w+\([^()]*\)/g, '').replace(/[\s,]/g, '');
  if (rest !== '') throw new Error(`transform="${text}" cannot be read at ${rest}`);
  return [...text.matchAll(/(\w+)\(([^()]*)\)/g)].map(([whole, name = '', inside = '']) => {
    const [a, b, c, ...more] = readNumbers(inside, 'transform');
    if (a === undefined || more.length > 0 || (name !== 'rotate' && c !== undefined) || (name === 'rotate' && b !== undefined && c === undefined)) throw new Error(`transform="${text}": ${whole} has a wrong count of numbers`);
    switch (name) {
      case 'translate': return [1, 0, 0, 1, a, b ?? 0];
      case 'scale': return [a, 0, 0, b ?? a, 0, 0];
      case 'rotate': return turn((a * Math.PI) / 180, b ?? 0, c ?? 0);
      default: throw new Error(`sheets may not use transform ${name}: the book cannot paint it`);
    }
  });
}

function turn(angle: number, x: number, y: number): Matrix {
  const [cos, sin] = [Math.cos(angle), Math.sin(angle)];
  return [cos, sin, -sin, cos, x - cos * x + sin * y, y - sin * x - cos * y];
}
