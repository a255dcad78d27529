/** Better numbers for the file, from readings that agree: each an edit like any other, made only when the builder says so. */
import { useState } from 'react';
import type { ReactElement } from 'react';
import { useActs, useBench } from '../bench.ts';
import type { Proposals } from './use-guide.ts';

/** `parts.M1.measured_voltage` as one says it: `M1, measured voltage`. */
const inWords = (path: string): string => { const [, name = path, ...field] = path.split('.'); return `${name}, ${field.join(' ').replaceAll('_', ' ')}`; };

export function BetterNumbers({ proposals }: { readonly proposals: Proposals | undefined }): ReactElement {
  const acts = useActs();
  const undoes = useBench('undoes');
  const [problem, setProblem] = useState<string>();
  const [applied, setApplied] = useState<readonly string[]>([]);
  const [isBusy, setBusy] = useState(false);
  const apply = async ({ path, text }: Proposals[number]): Promise<void> => {
    if (isBusy) return;
    const label = `${inWords(path)} from a reading`;
    setBusy(true);
    const why = await acts.edit([{ do: 'set', path, to: text }], label);
    setBusy(false);
    setProblem(why);
    if (why !== undefined) return;
    setApplied((now) => [...now, label]);
    acts.announce(`${inWords(path)} is ${text} now.`);
  };
  return (
    <section aria-labelledby="better-numbers" className="numbers">
      <h1 id="better-numbers">Better numbers from your readings</h1>
      <p className="hint">What you have read, where it agrees, as numbers for the file, with what the meter may be out by. Nothing changes before you apply it, and each can be undone.</p>
      {problem !== undefined && <p className="problems" role="alert">{problem}</p>}
      {undoes !== undefined && applied.includes(undoes) && <p><button type="button" className="big" onClick={acts.undo}>Undo: {undoes}</button></p>}
      {proposals === undefined ? <p className="waiting">Working out what the readings settle …</p>
        : proposals.length === 0 ? <p className="numbers-none">{applied.length > 0 ? 'The file says all of it now.' : 'None now. A reading of an assembly or power-up step, once it agrees, is offered here when it knows a number better than the file.'}</p>
          : <ul>{proposals.map((one) => (
            <li key={one.path}>
              <h2>{inWords(one.path)}</h2>
              <p className="numbers-value">{one.text}</p>
              <p>{one.instead === undefined ? 'The file says nothing of it yet' : <>instead of <span className="mono">{one.instead}</span></>}.</p>
              <p className="muted">{one.why}.</p>
              <button type="button" className="primary big" disabled={isBusy} onClick={() => void apply(one)} aria-label={`Apply ${one.text} to ${inWords(one.path)}`}>Apply</button>
            </li>
          ))}</ul>}
    </section>
  );
}
