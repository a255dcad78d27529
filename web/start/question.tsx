/** One question of the guided start. */
import { useId } from 'react';
import type { ReactElement } from 'react';
import type { StartQuestion } from './start-steps.ts';

export function Question({ question, value, onChange }: { readonly question: StartQuestion; readonly value: string; readonly onChange: (value: string) => void }): ReactElement {
  const id = useId();
  const { asks, hint, example, options } = question;
  return (
    <div className="question">
      <label htmlFor={id}>{asks}</label>
      {options
        ? <select id={id} value={value} onChange={(event) => onChange(event.target.value)}>{options.map(([option, says]) => <option key={option} value={option}>{says}</option>)}</select>
        : <input id={id} value={value} onChange={(event) => onChange(event.target.value)} placeholder={example === undefined ? undefined : `such as ${example}`} spellCheck={false} autoComplete="off" {...(hint === undefined ? {} : { 'aria-describedby': `${id}-hint` })} />}
      {hint !== undefined && <p className="hint" id={`${id}-hint`}>{hint}</p>}
    </div>
  );
}
