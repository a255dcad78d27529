/** The state that electrical sheets and the meter show: mode, settings, runs not yet made, failures, charge and cell temperature. */
import { useEffect, useId, useState } from 'react';
import type { FormEvent, ReactElement } from 'react';
import type { StateWords } from '../../core/car/read-state.ts';
import { useActs, useBench } from '../bench.ts';
import { Laid } from '../desk/dialog.tsx';

interface Written { readonly mode: string; readonly set: string; readonly without: string; readonly failed: string; readonly charge: string; readonly cells: string }

const listOf = (text: string): string[] => text.split(/[;\n]/).map((word) => word.trim()).filter((word) => word !== '');

/** Settings are set apart by `;`, because a value may hold commas and spaces; names by either. */
export function stateOf({ mode, set, without, failed, charge, cells }: Written): StateWords {
  const names = (text: string): string[] => text.split(/[;,\s]+/).filter((word) => word !== '');
  return {
    ...(mode === '' ? {} : { mode }), ...(listOf(set).length > 0 ? { set: listOf(set) } : {}), ...(names(without).length > 0 ? { without: names(without) } : {}), ...(names(failed).length > 0 ? { failed: names(failed) } : {}),
    ...(charge.trim() === '' ? {} : { charge: charge.trim() }), ...(cells.trim() === '' ? {} : { cells: cells.trim() }),
  };
}

const written = ({ mode = '', set = [], without = [], failed = [], charge = '', cells = '' }: StateWords): Written => ({ mode, set: set.join('; '), without: without.join(', '), failed: failed.join(', '), charge, cells });

export function StateDialog({ isOpen, onClose }: { readonly isOpen: boolean; readonly onClose: () => void }): ReactElement {
  return <Laid title="State of the vehicle" isOpen={isOpen} onClose={onClose}><StateForm onDone={onClose} /></Laid>;
}

function StateForm({ onDone }: { readonly onDone: () => void }): ReactElement {
  const acts = useActs();
  const outline = useBench('outline');
  const [now, setNow] = useState(() => written(acts.now().choices.state));
  const [problems, setProblems] = useState<readonly string[]>([]);
  const id = useId();
  const field = (name: keyof Written) => ({ value: now[name], onChange: (event: { readonly target: { readonly value: string } }) => setNow({ ...now, [name]: event.target.value }) });
  useEffect(() => { setProblems([]); }, [now]);
  const submit = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    const state = stateOf(now);
    const answer = await acts.ask('state', { text: acts.now().text, state });
    if (answer.problems.length > 0) { setProblems(answer.problems); acts.announce('The state cannot be used as it is written.'); return; }
    acts.choose({ state });
    onDone();
  };
  const add = (name: 'set' | 'without' | 'failed', word: string): void => {
    if (word !== '') setNow({ ...now, [name]: now[name].trim() === '' ? word : `${now[name].trim()}${name === 'set' ? '; ' : ', '}${word}` });
  };
  const picker = (name: 'set' | 'without' | 'failed', label: string, words: readonly string[], end = ''): ReactElement => (
    <select aria-label={label} value="" onChange={(event) => add(name, event.target.value === '' ? '' : `${event.target.value}${end}`)}><option value="">add…</option>{words.map((word) => <option key={word}>{word}</option>)}</select>
  );
  return (
    <form className="form" onSubmit={(event) => void submit(event)}>
      <p>Electrical sheets and the meter show the vehicle in this state. Nothing of it is written to the file.</p>
      <label>Mode <select {...field('mode')}><option value="">at rest: nothing is asked of anything</option>{outline?.modes.map(({ name, meaning }) => <option key={name} value={name}>{meaning === undefined ? name : `${name}: ${meaning}`}</option>)}</select></label>
      <div className="field-row"><label>Set <input {...field('set')} placeholder="INV.draw=20 kW; KEY.position=run" aria-describedby={`${id}-set`} spellCheck={false} /></label>{picker('set', 'add a setting', outline?.settings ?? [], '=')}</div>
      <p className="hint" id={`${id}-set`}>Part.setting=value; a semicolon between two.</p>
      <div className="field-row"><label>Runs not yet made <input {...field('without')} spellCheck={false} /></label>{picker('without', 'add a run that is not made', outline?.runs.map(({ name }) => name) ?? [])}</div>
      <div className="field-row"><label>Failures <input {...field('failed')} placeholder="K_pos.welded" spellCheck={false} /></label>{picker('failed', 'add a failure', outline?.failures ?? [])}</div>
      <div className="field-pair">
        <label>State of charge <input {...field('charge')} placeholder="as in the file" /></label>
        <label>Cell temperature <input {...field('cells')} placeholder="as in the file" /></label>
      </div>
      {problems.length > 0 && <ul className="problems" role="alert">{problems.map((problem) => <li key={problem}>{problem}</li>)}</ul>}
      <p className="form-end"><button type="submit" className="primary">Show this state</button> <button type="button" onClick={() => setNow(written({}))}>At rest</button></p>
    </form>
  );
}
