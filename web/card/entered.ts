/** An entry of the text as something that can be put in again elsewhere: a copy without its comments. */
import type { Entered } from '../../core/build/write-value.ts';
import type { ScanNode } from '../drawer/scan-text.ts';
import { scanNodeAt, scanText } from '../drawer/scan-text.ts';

/** @returns undefined when the text has nothing at the path */
export function enteredAt(text: string, path: string): Entered | undefined {
  const node = scanNodeAt(scanText(text).root, path.split('.'));
  return node && entered(node, text);
}

/** Names of a section, read from the text: an entry that cannot be used has a name all the same. */
export function namesIn(text: string, section: string): ReadonlySet<string> {
  const value = enteredAt(text, section);
  return new Set(typeof value === 'object' && !Array.isArray(value) ? Object.keys(value) : []);
}

function entered(node: ScanNode, text: string): Entered {
  if (node.text !== undefined) return node.text;
  const isList = text[node.valueAt] === '[' || (text[node.valueAt] !== '{' && node.entries.length > 0 && node.entries.every(({ key }, index) => key === String(index)));
  if (isList) return node.entries.map((item) => entered(item, text));
  return Object.fromEntries(node.entries.map((entry) => [entry.key, entered(entry, text)]));
}
