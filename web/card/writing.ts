/** How a field of the card writes itself into the file. */
import type { CardField } from '../analysis/protocol.ts';
import { useActs } from '../bench.ts';
import { inWords } from './names.ts';

/** How a field is called in the list of steps: `mass of M1`. */
export function labelOf({ path }: { readonly path: string }): string {
  const [section = '', name, ...rest] = path.split('.');
  if (name === undefined) return inWords(section);
  return rest.length === 0 ? `${inWords(name)} of the ${section}` : `${rest.map(inWords).join(' ')} of ${name}`;
}

/** @returns what has the consequences of a number worked out while it is typed */
export function useTyping(): (path: string, text: string) => void {
  const { expect } = useActs();
  return (path, text) => { if (text !== '') expect([{ do: 'set', path, to: text }]); };
}

/** @returns what writes a field, or takes it out when the text is empty */
export function useWriting(field: CardField, canRemove: boolean): (text: string) => Promise<string | undefined> {
  const { edit } = useActs();
  return async (text) => {
    if (text !== '') return edit([{ do: 'set', path: field.path, to: text }], labelOf(field));
    if (field.written === '') return undefined;
    if (field.need === 'required' && !canRemove) return `${inWords(field.name)} is required${field.example === undefined ? '' : `: write something such as ${field.example}`}. Escape brings back what was written.`;
    return edit([{ do: 'remove', path: field.path }], `${labelOf(field)} taken out`);
  };
}
