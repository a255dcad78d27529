/** Path of the build file <-> place in its text, also while the text cannot be read. */
import { scanText } from './scan-text.ts';
import type { ScanNode } from './scan-text.ts';

const axes = ['x', 'y', 'z'];

/** The path of what stands at an offset: the deepest key or item whose text holds it. '' where there is none. */
export function pathAtOffset(text: string, offset: number): string {
  const path: string[] = [];
  let node: ScanNode | undefined = scanText(text).root;
  while (node) {
    const inner: ScanNode | undefined = node.entries.findLast((entry) => entry.at <= offset);
    if (!inner || !holds(inner, offset, text)) break;
    path.push(inner.key);
    node = inner;
  }
  return path.join('.');
}

/** A key holds the spaces behind it up to the end of the line, so that the end of a line still belongs to it. */
function holds(node: ScanNode, offset: number, text: string): boolean {
  return offset <= node.end || !/[\n,}\]]/.test(text.slice(node.end, offset));
}

/** Place of the value at a path, or of the nearest thing above it that the text has. */
export function offsetOfPath(text: string, path: string): { readonly from: number; readonly to: number } | undefined {
  let node = scanText(text).root;
  let found: ScanNode | undefined;
  for (const segment of path.split('.')) {
    const inner = node.entries.find(({ key }) => key === segment) ?? node.entries.find(({ key }) => axes.includes(segment) && key === String(axes.indexOf(segment)));
    if (!inner) break;
    found = inner;
    node = inner;
  }
  if (!found) return undefined;
  return found.text === undefined ? { from: found.at, to: found.keyEnd } : { from: found.valueAt, to: found.end };
}
