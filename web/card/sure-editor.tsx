/** Tolerance and basis of a written number, without typing the number again. */
import { useId } from 'react';
import type { ReactElement } from 'react';
import { bases } from '../../core/quantity/basis.ts';
import { basisWords, splitSure, withSure } from './sure.ts';
import { TextField } from './text-field.tsx';

export function SureEditor({ name, written, onCommit }: { readonly name: string; readonly written: string; readonly onCommit: (text: string) => Promise<string | undefined> }): ReactElement {
  const id = useId();
  const { head, tolerance, basis } = splitSure(written);
  return (
    <div className="sure" role="group" aria-label={`Tolerance and basis of ${name}`}>
      <span className="mono">{head}</span>
      <TextField label={`tolerance of ${name}`} isLabelHidden written={tolerance} placeholder="±0.5 or ±2 %" onCommit={(to) => onCommit(withSure(written, { tolerance: to }))} />
      <label htmlFor={id} className="unseen">basis of {name}</label>
      <select id={id} value={basis} onChange={(event) => void onCommit(withSure(written, { basis: event.target.value }))}>
        <option value="">no word: an estimate</option>
        {basisWords.map((word) => <option key={word} value={word}>{word}: {bases[word as keyof typeof bases].meaning}</option>)}
      </select>
    </div>
  );
}
