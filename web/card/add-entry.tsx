/** What parts and runs are made from, and what the car is asked to do: entries of the file that are no parts. */
import { useState } from 'react';
import type { ReactElement } from 'react';
import type { NamedSection } from '../../core/build/edit-build.ts';
import { useActs } from '../bench.ts';
import { namesIn } from './entered.ts';
import { nextFreeName } from './names.ts';

export interface EntryRow { readonly section: Exclude<NamedSection, 'parts' | 'runs'>; readonly title: string; readonly meaning: string; readonly stem: string; readonly fields: Readonly<Record<string, string>> }

export const entryRows: readonly EntryRow[] = [
  { section: 'stock', title: 'Stock: cable', meaning: 'a reel of thick cable that runs are cut from', stem: 'cable1', fields: { kind: 'cable' } },
  { section: 'stock', title: 'Stock: wire', meaning: 'a reel of thin wire that runs are cut from', stem: 'wire1', fields: { kind: 'wire' } },
  { section: 'stock', title: 'Stock: busbar', meaning: 'a length of bar that runs are cut from', stem: 'bar1', fields: { kind: 'busbar' } },
  { section: 'cells', title: 'Cell', meaning: 'a type of cell that battery parts are made of', stem: 'cell1', fields: {} },
  { section: 'modes', title: 'Mode', meaning: 'what the vehicle is asked to do: driving, charging, standing', stem: 'mode1', fields: {} },
  { section: 'removed', title: 'Thing taken out', meaning: 'what was on the scale before and is gone: engine, tank, exhaust', stem: 'old1', fields: {} },
];

export const fitsEntry = ({ section, title, meaning }: EntryRow, words: string): boolean => words.toLowerCase().split(/\s+/).every((word) => `${section} ${title} ${meaning}`.toLowerCase().includes(word));

/** Its name is all that is asked here: the card that opens asks for the rest. */
export function NewEntry({ row, onBack, onDone }: { readonly row: EntryRow; readonly onBack: () => void; readonly onDone: () => void }): ReactElement {
  const acts = useActs();
  const [name, setName] = useState(() => { const taken = namesIn(acts.now().text, row.section); return taken.has(row.stem) ? nextFreeName(row.stem, taken) : row.stem; });
  const [refusal, setRefusal] = useState<string>();
  const add = async (): Promise<void> => {
    const wanted = name.trim();
    const problem = namesIn(acts.now().text, row.section).has(wanted) ? `There is a ${wanted} already. Choose another name.` : await acts.edit([{ do: 'insert', into: row.section, key: wanted, value: row.fields, force: true }], `${wanted} added`);
    setRefusal(problem);
    if (problem !== undefined) return;
    acts.select(`${row.section}.${wanted}`);
    acts.announce(`${wanted} is added. Its card asks for the rest.`);
    onDone();
  };
  return (
    <form className="new-part" onSubmit={(event) => { event.preventDefault(); void add(); }}>
      <p><strong>{row.title}</strong>: {row.meaning} <button type="button" className="quiet" onClick={onBack}>Something else</button></p>
      <div className="typed"><label htmlFor="new-entry-name">name</label><input id="new-entry-name" value={name} autoFocus autoComplete="off" spellCheck={false} onChange={(event) => setName(event.target.value)} /></div>
      {refusal !== undefined && <p className="refusal" role="alert">{refusal}</p>}
      <p className="field-ways"><button type="submit" className="primary">Add {name}</button></p>
    </form>
  );
}
