/** Single failures to choose from: by severity, mode, whether anything tells of them, part or run, and words. In place of the drawing of that sheet. */
import { useEffect, useState } from 'react';
import type { ReactElement } from 'react';
import type { FailuresAnswer, FailureWish } from '../analysis/protocol.ts';
import { useActs, useBench } from '../bench.ts';
import './failures.css';

/** Rows drawn at once; more on request. */
const ROWS = 40;
/** Without another letter for this long, the words are looked for [ms]. */
const PAUSE = 250;

/** What was wanted last; it outlives the view. */
let kept: FailureWish = {};

const capital = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

export function FailuresView(): ReactElement {
  const [wish, setWish] = useState(kept);
  const [limit, setLimit] = useState(ROWS);
  const { answer, isAsking, failure } = useFailures(wish);
  const want = <K extends keyof FailureWish>(key: K, value: FailureWish[K] | undefined): void => {
    const { [key]: _, ...rest } = wish;
    kept = value === undefined ? rest : { ...rest, [key]: value };
    setWish(kept);
    setLimit(ROWS);
  };
  const picked = (value: string): string | undefined => (value === '' ? undefined : value);
  const rows = answer?.rows.slice(0, limit) ?? [];
  return (
    <div className="failures" id="failures">
      <h2>Single failures, chosen</h2>
      <div className="failure-filters" role="search" aria-label="Choose failures">
        <label>How bad<select value={wish.severity ?? ''} onChange={(event) => want('severity', picked(event.target.value))}>
          <option value="">all</option>
          {answer?.severities.map(({ name, says, count }) => <option key={name} value={name}>{says} ({count})</option>)}
        </select></label>
        <label>Mode<select value={wish.mode ?? ''} onChange={(event) => want('mode', picked(event.target.value))}>
          <option value="">all</option>
          {answer?.modes.map((mode) => <option key={mode}>{mode}</option>)}
        </select></label>
        <label>Told<select value={wish.told === undefined ? '' : wish.told ? 'yes' : 'no'} onChange={(event) => want('told', event.target.value === '' ? undefined : event.target.value === 'yes')}>
          <option value="">all</option>
          <option value="yes">something tells the driver</option>
          <option value="no">nothing tells</option>
        </select></label>
        <label>Part or run<select value={wish.about ?? ''} onChange={(event) => want('about', picked(event.target.value))}>
          <option value="">all</option>
          {answer?.names.map((name) => <option key={name}>{name}</option>)}
        </select></label>
        <label className="wide">Words<input type="search" value={wish.words ?? ''} placeholder="fuse, interlock …" autoComplete="off" spellCheck={false} onChange={(event) => want('words', picked(event.target.value))} /></label>
        <button type="button" disabled={Object.keys(wish).length === 0} onClick={() => { kept = {}; setWish(kept); setLimit(ROWS); }}>Show all</button>
      </div>
      <p role="status">{failure ?? (answer ? `${answer.count} of ${answer.total} failures${answer.count > 0 ? `, in ${answer.rows.length} ${answer.rows.length === 1 ? 'row' : 'rows'}: those that do the same stand together` : ''}.` : 'Working out every failure in every mode …')}{answer && isAsking && failure === undefined ? ' Looking …' : ''}</p>
      <div className={isAsking && answer ? 'stale' : ''}>
        {answer?.severities.map(({ name, says }) => {
          const own = rows.filter(({ severity }) => severity === name);
          return own.length === 0 ? null : (
            <section key={name} className="failure-group" aria-label={says}>
              <h3>{capital(says)}</h3>
              <ul>{own.map((row, index) => <Failure key={index} row={row} />)}</ul>
            </section>
          );
        })}
      </div>
      {answer && answer.rows.length > limit && <p><button type="button" onClick={() => setLimit(limit + 4 * ROWS)}>Show {Math.min(answer.rows.length - limit, 4 * ROWS)} more rows</button></p>}
      <p className="hint">One thing wrong at a time, computed from the build file. It finds what the file draws and nothing else; an inspection and tests on the vehicle decide.</p>
    </div>
  );
}

function Failure({ row }: { readonly row: FailuresAnswer['rows'][number] }): ReactElement {
  const { select } = useActs();
  const { path } = row;
  return (
    <li className="failure">
      <div className="what">{row.failures.map((one) => <p key={one}>{one}</p>)}{path !== undefined && path !== '' && <button type="button" className="link" aria-label={`Show it: ${row.failures.join(', ')}`} onClick={() => select(path)}>Show it</button>}</div>
      <dl>
        <div><dt>Happens</dt><dd>{row.happens.length > 0 ? row.happens.map((one) => <p key={one}>{one}</p>) : 'no change by itself'}</dd></div>
        <div><dt>Tells the driver</dt><dd>{row.tells.length > 0 ? row.tells.join('; ') : 'nothing'}{row.seenAt.length > 0 && <p className="muted">shows at {row.seenAt.join(', ')}, and no condition fails</p>}</dd></div>
        {row.second !== '' && <div><dt>One more failure</dt><dd>{row.second}</dd></div>}
      </dl>
    </li>
  );
}

function useFailures(wish: FailureWish): { readonly answer: FailuresAnswer | undefined; readonly isAsking: boolean; readonly failure: string | undefined } {
  const { askAside } = useActs();
  const text = useBench('text');
  const { units } = useBench('choices');
  const [known, setKnown] = useState<{ readonly of: string; readonly answer: FailuresAnswer }>();
  const [failure, setFailure] = useState<string>();
  const asked = JSON.stringify([text, units, wish]);
  useEffect(() => {
    let isOver = false;
    setFailure(undefined);
    const timer = setTimeout(() => {
      askAside('failures', { text, units, wish }).then((answer) => { if (!isOver) setKnown({ of: asked, answer }); }, (error: unknown) => { if (!isOver) setFailure(error instanceof Error ? error.message : String(error)); });
    }, wish.words === undefined ? 0 : PAUSE);
    return () => { isOver = true; clearTimeout(timer); };
  }, [text, units, wish, askAside, asked]);
  return { answer: known?.answer, isAsking: known?.of !== asked, failure };
}
