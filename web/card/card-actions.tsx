/** What can be done with the thing of a card: see it, rename it, copy it, take it out. Each is one step of undo. */
import { useState } from 'react';
import type { ReactElement } from 'react';
import type { NamedSection } from '../../core/build/edit-build.ts';
import type { SheetName } from '../../sheets/sheet.ts';
import type { Card } from '../analysis/protocol.ts';
import type { Study } from '../../study/study.ts';
import { useActs, useBench } from '../bench.ts';
import { enteredAt, namesIn } from './entered.ts';
import { nextFreeName } from './names.ts';
import { TextField } from './text-field.tsx';

const sheetBySection: Readonly<Record<string, SheetName>> = { runs: 'cables', stock: 'cables', cells: 'pack', removed: 'mass', vehicle: 'mass', conditions: 'cover', modes: 'low-voltage' };

/** The sheet on which a thing is drawn. */
export function sheetOf(path: string, outline: Study['outline'] | undefined): SheetName {
  const [section = '', name] = path.split('.');
  if (section === 'parts') return outline?.parts.find((part) => part.name === name)?.family === 'low_voltage' ? 'low-voltage' : outline?.parts.find((part) => part.name === name)?.family === 'mechanical' ? 'layout' : 'high-voltage';
  return sheetBySection[section] ?? 'cover';
}

export function CardActions({ card }: { readonly card: Card }): ReactElement {
  const acts = useActs();
  const outline = useBench('outline');
  const [open, setOpen] = useState<'rename' | 'delete'>();
  const [refusal, setRefusal] = useState<string>();
  const [section = '', name] = card.path.split('.');
  const isEntry = name !== undefined;
  const hanging = name === undefined ? [] : hangingOn(section, name, card, outline);
  const note = (problem: string | undefined): void => { setRefusal(problem); if (problem !== undefined) acts.announce(problem); };

  const copy = async (): Promise<void> => {
    const { text } = acts.now();
    const value = name === undefined ? undefined : enteredAt(text, card.path);
    if (name === undefined || value === undefined) return;
    const fresh = nextFreeName(name, new Set([...namesIn(text, section), ...(section === 'parts' ? outline?.parts.map((part) => part.name) ?? [] : [])]));
    const problem = await acts.edit([{ do: 'insert', into: section, key: fresh, value, force: true }], `copy of ${name}`);
    note(problem);
    if (problem === undefined) { acts.select(`${section}.${fresh}`); acts.announce(`${fresh} is a copy of ${name}${section === 'parts' ? ', without runs' : ''}.`); }
  };
  const remove = async (): Promise<void> => {
    if (name === undefined) return;
    const problem = await acts.edit([section === 'parts' ? { do: 'remove_part', name, withRuns: true } : { do: 'remove', path: card.path }], `${name} taken out`);
    note(problem);
    if (problem === undefined) { acts.select(undefined); acts.announce(`${name} is taken out${hanging.length > 0 && section === 'parts' ? `, and with it ${hanging.join(', ')}` : ''}. Undo brings it back.`); }
  };
  const rename = async (to: string): Promise<string | undefined> => {
    if (name === undefined || to === '' || to === name) return undefined;
    const problem = await acts.edit([{ do: 'rename', section: section as NamedSection, name, to }], `${name} renamed to ${to}`);
    if (problem === undefined) { setOpen(undefined); acts.select(`${section}.${to}`); }
    return problem;
  };

  return (
    <div className="card-actions">
      <p>
        <button type="button" onClick={() => { acts.show(sheetOf(card.path, outline)); focusOnDrawing(card.path); }}>To the drawing</button>
        {section === 'parts' && <button type="button" onClick={() => { acts.show('layout'); focusOnDrawing(card.path); }}>To the layout</button>}
        <button type="button" onClick={() => acts.openText({ path: card.path === '' ? 'name' : card.path })}>To the text</button>
        {isEntry && <button type="button" aria-expanded={open === 'rename'} onClick={() => setOpen(open === 'rename' ? undefined : 'rename')}>Rename…</button>}
        {isEntry && section !== 'runs' && <button type="button" onClick={() => void copy()}>Duplicate</button>}
        {isEntry && <button type="button" aria-expanded={open === 'delete'} onClick={() => (hanging.length > 0 ? setOpen(open === 'delete' ? undefined : 'delete') : void remove())}>{hanging.length > 0 ? 'Delete…' : 'Delete'}</button>}
      </p>
      {open === 'rename' && name !== undefined && <TextField label={`new name of ${name}`} written={name} onCommit={rename} />}
      {open === 'delete' && (
        <div className="ask" role="group" aria-label={`Delete ${name}?`}>
          <p>{section === 'parts' ? `These hang on ${name} and go with it: ` : `These use ${name} and will lack it: `}<span className="mono">{hanging.join(', ')}</span>.</p>
          <p><button type="button" onClick={() => void remove()}>Delete {name}{section === 'parts' ? ` and ${hanging.length} more` : ''}</button> <button type="button" onClick={() => setOpen(undefined)}>Keep it</button></p>
        </div>
      )}
      {refusal !== undefined && <p className="refusal">{refusal}</p>}
    </div>
  );
}

/** Runs that end at a part, or that are cut from a stock. */
function hangingOn(section: string, name: string, card: Card, outline: Study['outline'] | undefined): readonly string[] {
  if (section === 'parts') return [...new Set(card.ends.flatMap(({ runs }) => runs.map((run) => run.name)))];
  if (section === 'stock') return outline?.runs.filter(({ stock }) => stock === name).map((run) => run.name) ?? [];
  return [];
}

/** Waits until the sheet is drawn, then puts the focus on the thing; gives up after a second. */
function focusOnDrawing(path: string): void {
  const until = performance.now() + 1000;
  const look = (): void => {
    const target = document.querySelector<SVGElement>(`.drawing [data-subject="${CSS.escape(path)}"]`);
    if (target) { target.focus({ preventScroll: true }); target.scrollIntoView({ block: 'center', inline: 'center' }); } else if (performance.now() < until) requestAnimationFrame(look);
  };
  requestAnimationFrame(look);
}
