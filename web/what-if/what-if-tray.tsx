/** Alternatives side by side under the sheet: what each would change. The file stays as it is until one is kept. */
import { memo } from 'react';
import type { ReactElement } from 'react';
import { levelOrder, levelWords } from '../../sheets/levels.ts';
import type { LevelCounts } from '../../sheets/levels.ts';
import type { ChangedFinding } from '../analysis/protocol.ts';
import { useActs, useBench } from '../bench.ts';
import { inWords } from '../card/names.ts';
import { TextField } from '../card/text-field.tsx';
import { LevelSign } from '../style/level-sign.tsx';
import { addChange, dropAlternative, dropChange, editsOf, setChange, useAlternatives } from './alternatives.ts';
import type { Alternative } from './alternatives.ts';
import { useOutcomes } from './use-outcomes.ts';
import type { Outcome } from './use-outcomes.ts';
import './what-if.css';

/** Rows of a list that are shown; the rest is counted. */
const ROWS = 6;

export const WhatIfTray = memo(function WhatIfTray(): ReactElement | null {
  const alternatives = useAlternatives();
  const outcomes = useOutcomes(alternatives);
  if (alternatives.length === 0) return null;
  return (
    <section className="what-if" aria-label="What if">
      <h2>What if</h2>
      <p className="hint">Alternatives beside each other. Nothing here is in the file until you keep it.</p>
      <div className="what-if-columns">
        {alternatives.map((alternative, index) => <Column key={alternative.id} alternative={alternative} number={index + 1} outcome={outcomes.get(alternative.id)} others={alternatives} />)}
      </div>
    </section>
  );
});

const said = (path: string): string => path.split('.').slice(1).map(inWords).join(' ');

function Column({ alternative, number, outcome, others }: { readonly alternative: Alternative; readonly number: number; readonly outcome: Outcome | undefined; readonly others: readonly Alternative[] }): ReactElement {
  const acts = useActs();
  const study = useBench('study');
  const edits = editsOf(alternative);
  const title = `Alternative ${number}`;
  const more = [...new Set(others.flatMap(({ changes }) => changes).map(({ path }) => path))].filter((path) => !alternative.changes.some((change) => change.path === path));
  const keep = async (): Promise<void> => {
    const problem = await acts.edit(edits, alternative.changes.length === 1 ? said(alternative.changes[0]?.path ?? '') : `${alternative.changes.length} values of ${title.toLowerCase()}`);
    if (problem !== undefined) { acts.announce(problem); return; }
    dropAlternative(alternative.id);
    acts.announce(`${title} is in the file now. Undo takes it back.`);
  };
  return (
    <article className="alternative" aria-label={title}>
      <h3>{title}</h3>
      {alternative.changes.map(({ path, before, to }) => (
        <div key={path} className="change">
          <TextField label={said(path)} written={to} onCommit={(text) => { setChange(alternative.id, path, text); return Promise.resolve(undefined); }} />
          <p className="field-about">now <span className="mono">{before === '' ? 'not given' : before}</span> {alternative.changes.length > 1 && <button type="button" className="link" onClick={() => dropChange(alternative.id, path)}>leave {said(path)} as it is</button>}</p>
        </div>
      ))}
      {more.map((path) => <button key={path} type="button" className="link" onClick={() => addChange(alternative.id, path, others.flatMap(({ changes }) => changes).find((change) => change.path === path)?.before ?? '')}>and {said(path)} as well</button>)}
      {edits.length === 0 ? <p className="muted">Write another value to see what it would change.</p> : <Changed outcome={outcome} counts={study?.counts} />}
      <p className="field-ways">
        <button type="button" className="primary" disabled={edits.length === 0 || outcome === undefined || outcome.isOld || !outcome.row.ok} onClick={() => void keep()}>Keep {title.toLowerCase()}</button>
        <button type="button" onClick={() => { dropAlternative(alternative.id); acts.announce(`${title} is dropped.`); }}>Drop</button>
        <button type="button" onClick={() => acts.select(alternative.changes[0]?.path)}>Card</button>
      </p>
    </article>
  );
}

function Changed({ outcome: found, counts }: { readonly outcome: Outcome | undefined; readonly counts: LevelCounts | undefined }): ReactElement {
  if (!found || found.isOld) return <p className="muted" role="status">Computing …</p>;
  const outcome = found.row;
  if (!outcome.ok) return <p className="refusal" role="alert">{outcome.problem}</p>;
  const isSame = outcome.better.length === 0 && outcome.worse.length === 0 && outcome.numbers.length === 0;
  return (
    <div role="status">
      <ul className="level-changes">
        {levelOrder.map((level) => { const [was, is] = [counts?.[level] ?? 0, outcome.counts?.[level] ?? 0]; return was === 0 && is === 0 ? null : <li key={level}><LevelSign level={level} />{levelWords[level]} {was === is ? is : <>{was} → <strong>{is}</strong></>}</li>; })}
      </ul>
      {isSame && <p className="muted">No finding and no number of this sheet changes.</p>}
      <Changes title="Worse" changes={outcome.worse} />
      <Changes title="Better" changes={outcome.better} />
      {outcome.numbers.length > 0 && (
        <table className="number-changes">
          <caption>Numbers of this sheet</caption>
          <thead><tr><th scope="col">number</th><th scope="col">now</th><th scope="col">then</th></tr></thead>
          <tbody>{outcome.numbers.slice(0, ROWS + 2).map(({ key, before, after }) => <tr key={key}><th scope="row">{keyInWords(key)}</th><td>{before}</td><td>{after}</td></tr>)}</tbody>
        </table>
      )}
      {outcome.numbers.length > ROWS + 2 && <p className="muted">and {outcome.numbers.length - ROWS - 2} more numbers</p>}
    </div>
  );
}

const keyInWords = (key: string): string => inWords(key.replace(/^result:/, '')).replace(/[.:]+/g, ' ').replace(/^(?:parts|runs|cells) /, '');

function Changes({ title, changes }: { readonly title: string; readonly changes: readonly ChangedFinding[] }): ReactElement | null {
  if (changes.length === 0) return null;
  const steps = changes.filter(({ before, after }) => before !== after);
  return (
    <>
      <h4>{title} ({changes.length})</h4>
      <ul className="finding-changes">
        {changes.slice(0, Math.max(ROWS, Math.min(steps.length, 2 * ROWS))).map(({ row, before, after }, index) => (
          <li key={`${row.key} ${index}`} data-change={title.toLowerCase()}>
            <span className="step">{before && <LevelSign level={before} />}{before === after ? `still ${after ? levelWords[after] : ''}` : `${before ? levelWords[before] : 'not there'} → `}{before !== after && (after ? <><LevelSign level={after} />{levelWords[after]}</> : 'gone')}</span> {row.statement}
          </li>
        ))}
      </ul>
      {changes.length > Math.max(ROWS, Math.min(steps.length, 2 * ROWS)) && <p className="muted">and {changes.length - Math.max(ROWS, Math.min(steps.length, 2 * ROWS))} more</p>}
    </>
  );
}
