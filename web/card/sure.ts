/** How sure a written number is, apart from the number: its tolerance and the word that says where it came from. */
import { bases } from '../../core/quantity/basis.ts';

export interface Sure {
  /** number with its unit, as typed */
  readonly head: string;
  /** `±0.5`, `±2 %`, `+0.2/-0.1`, `(0.1..0.5 mΩ)`; '' when none is written */
  readonly tolerance: string;
  readonly basis: string;
}

export const basisWords: readonly string[] = Object.keys(bases);

export function splitSure(text: string): Sure {
  const found = /(?:^|\s)([a-z]+)\s*$/i.exec(text);
  const basis = found?.[1] !== undefined && basisWords.includes(found[1].toLowerCase()) ? found[1].toLowerCase() : '';
  const rest = basis === '' ? text.trim() : text.slice(0, found?.index).trim();
  const at = rest.search(/±|\+\/-|\+-|\s\+\s*[\d.]+[^/]*\/\s*-|\(/);
  return at <= 0 ? { head: rest, tolerance: '', basis } : { head: rest.slice(0, at).trim(), tolerance: rest.slice(at).trim(), basis };
}

/**
 * The text with another tolerance or basis; the number and its unit stay as typed.
 * @param to  a tolerance without a sign gets ±; '' takes it out
 */
export function withSure(text: string, to: { readonly tolerance?: string; readonly basis?: string }): string {
  const now = splitSure(text);
  const basis = to.basis ?? now.basis;
  const typed = (to.tolerance ?? now.tolerance).trim();
  const tolerance = typed === '' || /^(?:±|\+|\()/.test(typed) ? typed : `±${typed}`;
  // 262 ±10 mm: the unit stands behind the tolerance, and moves to the number when the tolerance is another
  const shared = to.tolerance !== undefined && !/[^\d\s.,/~+\-−½¼¾]/.test(now.head) ? /^(?:±|\+\/-)\s*[\d.]+\s*(\D.*)$/.exec(now.tolerance)?.[1]?.trim() : undefined;
  const head = shared === undefined || shared === '%' ? now.head : `${now.head} ${shared}`;
  // ~ says estimate; another basis takes its place
  const plain = basis === '' || basis === 'estimate' ? head : head.replace(/^[~≈]\s*/, '');
  return [plain, tolerance, basis].filter((piece) => piece !== '').join(' ');
}
