/** A new part: which kind, what it is called, what only the builder can know of it. */
import { useEffect, useMemo, useState } from 'react';
import type { ReactElement } from 'react';
import type { CardField, Questions } from '../analysis/protocol.ts';
import { useActs, useBench } from '../bench.ts';
import { entryRows, fitsEntry, NewEntry } from './add-entry.tsx';
import type { EntryRow } from './add-entry.tsx';
import { inWords, proposedName } from './names.ts';
import { Pick } from './pick.tsx';
import { TextField } from './text-field.tsx';
import './card.css';

type KindRow = Questions['kinds']['answer'][number];
const families: readonly (readonly [string, string])[] = [['high_voltage', 'High voltage'], ['low_voltage', 'Low voltage'], ['mechanical', 'Mechanical']];

export function AddPart({ onDone }: { readonly onDone: () => void }): ReactElement {
  const { ask } = useActs();
  const text = useBench('text');
  const [kinds, setKinds] = useState<readonly KindRow[]>();
  const [chosen, setChosen] = useState<KindRow>();
  const [entry, setEntry] = useState<EntryRow>();
  const [words, setWords] = useState('');
  useEffect(() => { let isOver = false; ask('kinds', { text }).then((rows) => { if (!isOver) setKinds(rows); }, () => undefined); return () => { isOver = true; }; }, [ask, text]);
  const found = useMemo(() => kinds?.filter((row) => fits(row, words)) ?? [], [kinds, words]);
  if (chosen) return <NewPart row={kinds?.find(({ kind }) => kind === chosen.kind) ?? chosen} onBack={() => setChosen(undefined)} onDone={onDone} />;
  if (entry) return <NewEntry row={entry} onBack={() => setEntry(undefined)} onDone={onDone} />;
  const entries = entryRows.filter((row) => fitsEntry(row, words));
  return (
    <div className="add-part">
      <label className="add-search">Kind of part <input type="search" value={words} autoFocus placeholder="contactor, fuse, pump …" onChange={(event) => setWords(event.target.value)} onKeyDown={(event) => { if (event.key === 'Enter' && found[0]) setChosen(found[0]); }} /></label>
      <p className="muted" role="status">{kinds ? `${found.length} of ${kinds.length} kinds` : 'Looking …'}</p>
      {families.map(([family, title]) => {
        const rows = found.filter((row) => row.family === family);
        return rows.length === 0 ? null : (
          <section key={family} aria-label={title}>
            <h3 data-family={family}>{title}</h3>
            <ul className="kind-list">{rows.map((row) => <li key={row.kind}><button type="button" className="kind" onClick={() => setChosen(row)}><strong>{row.title}</strong> <span className="muted">{row.meaning}</span></button></li>)}</ul>
          </section>
        );
      })}
      {entries.length > 0 && (
        <section aria-label="What they are made from, and what the car does">
          <h3>What they are made from, and what the car does</h3>
          <ul className="kind-list">{entries.map((row) => <li key={row.title}><button type="button" className="kind" onClick={() => setEntry(row)}><strong>{row.title}</strong> <span className="muted">{row.meaning}</span></button></li>)}</ul>
        </section>
      )}
    </div>
  );
}

function fits({ kind, title, meaning }: KindRow, words: string): boolean {
  const all = `${kind} ${title} ${meaning}`.toLowerCase();
  return words.toLowerCase().split(/\s+/).every((word) => all.includes(word));
}

function NewPart({ row, onBack, onDone }: { readonly row: KindRow; readonly onBack: () => void; readonly onDone: () => void }): ReactElement {
  const acts = useActs();
  const parts = useBench('outline')?.parts ?? [];
  const [name, setName] = useState(() => proposedName(row.kind, parts));
  const [values, setValues] = useState<Readonly<Record<string, string>>>(() => Object.fromEntries(row.required.flatMap((field) => (field.options.length === 1 && field.options[0] ? [[field.name, field.options[0].value]] : []))));
  const [refusal, setRefusal] = useState<string>();
  const put = (field: CardField) => (value: string): Promise<undefined> => { setValues((now) => ({ ...now, [field.name]: value })); return Promise.resolve(undefined); };
  const asked = row.required.filter(({ type }) => !['list', 'map', 'group', 'position'].includes(type));
  const add = async (): Promise<void> => {
    const fields = Object.fromEntries(Object.entries(values).filter(([, value]) => value !== ''));
    const problem = await acts.edit([{ do: 'add_part', name, kind: row.kind, fields }], `${name} added`);
    setRefusal(problem);
    if (problem !== undefined) return;
    acts.select(`parts.${name}`);
    acts.announce(`${name} is added: ${row.title}.`);
    onDone();
  };
  return (
    <form className="new-part" onSubmit={(event) => { event.preventDefault(); void add(); }}>
      <p><strong>{row.title}</strong>: {row.meaning} <button type="button" className="quiet" onClick={onBack}>Another kind</button></p>
      <div className="typed"><label htmlFor="new-part-name">name</label><input id="new-part-name" value={name} autoFocus autoComplete="off" spellCheck={false} onChange={(event) => setName(event.target.value)} /></div>
      {asked.length > 0 && <p className="muted">Only you can know these. What you leave empty is listed as missing.</p>}
      {asked.map((field) => (
        <div key={field.name} className="field">
          <Asked field={field} value={values[field.name] ?? ''} onValue={put(field)} />
          <p className="field-about">{field.meaning}</p>
        </div>
      ))}
      {refusal !== undefined && <p className="refusal" role="alert">{refusal}</p>}
      <p className="field-ways"><button type="submit" className="primary">Add {name}</button></p>
    </form>
  );
}

function Asked({ field, value, onValue }: { readonly field: CardField; readonly value: string; readonly onValue: (value: string) => Promise<undefined> }): ReactElement {
  const label = inWords(field.name);
  if (field.type === 'choice' || field.type === 'flag') {
    return <label className="typed">{label} <select value={value} onChange={(event) => void onValue(event.target.value)}><option value="">not known yet</option>{field.options.map((option) => <option key={option.value} value={option.value}>{option.value}{option.says === '' ? '' : `: ${option.says}`}</option>)}</select></label>;
  }
  if (field.options.length > 0) return <Pick label={label} written={value} options={field.options} placeholder={field.example} onCommit={onValue} />;
  return <TextField label={label} written={value} placeholder={field.example} isNumber={field.type === 'quantity' || field.type === 'count'} onCommit={onValue} />;
}
