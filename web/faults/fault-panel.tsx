/** Why does it do nothing: a conversation. What was asked for, what happens instead, what may be wrong, and what to look at next. */
import { useEffect, useState } from 'react';
import type { ReactElement } from 'react';
import type { FaultAnswer } from '../analysis/protocol.ts';
import { useBench } from '../bench.ts';
import './faults.css';

interface Said { readonly mode: string | undefined; readonly symptoms: readonly string[]; readonly seen: readonly string[] }
/** What was said so far; it outlives the panel. */
let kept: Said = { mode: undefined, symptoms: [], seen: [] };

export function FaultPanel(): ReactElement {
  const bench = useBench();
  const [said, setSaid] = useState(kept);
  const { answer, isAsking, failure } = useFaultAnswer(said);
  const say = (next: Partial<Said>): void => { kept = { ...said, ...next }; setSaid(kept); };
  const begin = said.symptoms.length + said.seen.length === 0;
  return (
    <div className="faults">
      <div className="meter-head"><h2>Why does it do nothing?</h2><button type="button" className="quiet" onClick={() => bench.setFaultOpen(false)}>Put away</button></div>
      {answer && (
        <>
          <label className="typed">asked for <select value={answer.mode ?? ''} onChange={(event) => say({ mode: event.target.value, symptoms: [], seen: [] })}>{answer.modes.map((mode) => <option key={mode}>{mode}</option>)}</select></label>
          <Symptoms answer={answer} said={said} onChange={(symptoms) => say({ symptoms })} />
          {answer.problems.map(({ of, says }) => <p key={`${of} ${says}`} className="refusal" role="alert">{says}</p>)}
          {answer.path.length > 0 && (
            <section aria-label="Seen so far">
              <h3>Seen so far</h3>
              <ol className="noted">{answer.path.map(({ of, says }) => <li key={of}>{says} <button type="button" className="link" onClick={() => say({ symptoms: said.symptoms.filter((one) => one !== of), seen: said.seen.filter((one) => one !== of) })} aria-label={`Take back: ${says}`}>take back</button></li>)}</ol>
            </section>
          )}
        </>
      )}
      {failure !== undefined && <p className="refusal" role="alert">{failure}</p>}
      <div aria-live="polite" className={isAsking ? 'fault-answer stale' : 'fault-answer'}>
        {isAsking && <p className="muted">Working out what each fault would look like …</p>}
        {answer && !begin && <Causes answer={answer} />}
        {answer?.verdict && <Found verdict={answer.verdict} />}
        {answer?.next && <Next key={`${answer.next.look}${answer.next.where}${said.seen.length}`} next={answer.next} onSeen={(text) => say({ seen: [...said.seen, text] })} />}
        {answer && !begin && !answer.next && !answer.verdict && !isAsking && <p>Nothing on offer tells more. Look at what remains, likeliest first; or measure where the file may be wrong.</p>}
      </div>
      <Other onSeen={(text) => say({ seen: [...said.seen, text] })} />
      <ul className="cautions-short">
        <li>This work can kill and can burn a house down. Qualified help, local codes and inspection decide.</li>
        <li>A model never proves that a circuit is dead. Only a meter does, tried on a known source before and after.</li>
        {answer && answer.count > 0 && <li>{answer.count} things that may be wrong come from the build file; how likely each was at first is common practice.</li>}
      </ul>
    </div>
  );
}

function useFaultAnswer(said: Said): { readonly answer: FaultAnswer | undefined; readonly isAsking: boolean; readonly failure: string | undefined } {
  const { text, askAside } = useBench();
  const [known, setKnown] = useState<{ readonly text: string; readonly said: Said; readonly answer: FaultAnswer }>();
  const [failure, setFailure] = useState<string>();
  useEffect(() => {
    let isOver = false;
    setFailure(undefined);
    askAside('fault', { text, ...said }).then((answer) => { if (!isOver) setKnown({ text, said, answer }); }, (error: unknown) => { if (!isOver) setFailure(error instanceof Error ? error.message : String(error)); });
    return () => { isOver = true; };
  }, [text, said, askAside]);
  return { answer: known?.answer, isAsking: failure === undefined && (known?.text !== text || known.said !== said), failure };
}

function Symptoms({ answer, said, onChange }: { readonly answer: FaultAnswer; readonly said: Said; readonly onChange: (symptoms: readonly string[]) => void }): ReactElement {
  return (
    <fieldset className="symptoms">
      <legend>What happens instead</legend>
      {answer.symptoms.map(({ name, meaning }) => (
        <label key={name}><input type="checkbox" checked={said.symptoms.includes(name)} onChange={(event) => onChange(event.target.checked ? [...said.symptoms, name] : said.symptoms.filter((one) => one !== name))} /> {meaning}</label>
      ))}
    </fieldset>
  );
}

function Causes({ answer }: { readonly answer: FaultAnswer }): ReactElement {
  const bench = useBench();
  return (
    <section aria-label="It may be">
      <h3>It may be</h3>
      <ol className="causes">{answer.causes.map(({ says, chance, share, path }) => (
        <li key={says}>
          <span className="chance"><span className="chance-bar" aria-hidden="true" style={{ width: `${Math.max(1, Math.round(100 * share))}%` }} />{chance}</span>
          {path === '' ? <span>{says}</span> : <button type="button" className="link" onClick={() => bench.select(path)}>{says}</button>}
        </li>
      ))}</ol>
      {answer.withPairs && <p className="muted">No single fault explains what was seen: two at once were looked for as well.</p>}
    </section>
  );
}

function Found({ verdict }: { readonly verdict: NonNullable<FaultAnswer['verdict']> }): ReactElement {
  const bench = useBench();
  return (
    <section aria-label="Found">
      <h3>{verdict.causes.length === 1 ? `It is this (${verdict.chance})` : `It is one of these (${verdict.chance}); no reading away from exposed high voltage tells them apart`}</h3>
      <ul className="found">{verdict.causes.map(({ says, confirm, mend, path }) => (
        <li key={says}><p><strong>{says}.</strong> {path !== '' && <button type="button" className="link" onClick={() => bench.select(path)}>Show it</button>}</p><p>To confirm: {confirm}</p><p>To mend: {mend}</p></li>
      ))}</ul>
      <p>After mending take the readings of the first power-up again where you have been.</p>
    </section>
  );
}

function Next({ next, onSeen }: { readonly next: NonNullable<FaultAnswer['next']>; readonly onSeen: (text: string) => void }): ReactElement {
  const bench = useBench();
  const [value, setValue] = useState('');
  const give = (found: string): void => onSeen(`${next.look}=${found}${next.where}`);
  const [red, black] = next.points;
  return (
    <section aria-label="Next" className="next-test">
      <h3>Look at this next</h3>
      <p><strong>{next.says}</strong> {next.state}</p>
      {next.danger === 'high' && <p className="above"><span aria-hidden="true">▲</span> High voltage exposed: it can kill.</p>}
      {next.precautions.length > 0 && <ul className="precautions">{next.precautions.map((one) => <li key={one}>{one}</li>)}</ul>}
      {red !== undefined && black !== undefined && <p><button type="button" onClick={() => { bench.show(next.danger === 'high' ? 'high-voltage' : 'low-voltage'); bench.setMeter({ isOut: true, red, black }); }}>Show the two points</button></p>}
      <ul className="outcomes">{next.outcomes.map(({ says, chance, remain }) => <li key={`${says} ${remain}`}>{says} ({chance}): {remain}</li>)}</ul>
      {next.answers === 'yes_no'
        ? <p className="field-ways"><button type="button" className="primary" onClick={() => give('yes')}>Yes</button> <button type="button" className="primary" onClick={() => give('no')}>No</button></p>
        : (
          <form className="give" onSubmit={(event) => { event.preventDefault(); if (value.trim() !== '') give(value.trim()); }}>
            <label className="typed">it reads <input value={value} placeholder={next.answers === 'voltage' ? '12.4 V' : '0.3 Ω, or open'} autoComplete="off" spellCheck={false} onChange={(event) => setValue(event.target.value)} /></label>
            <button type="submit" className="primary">Take it down</button>
          </form>
        )}
      <p className="muted">About {next.minutes < 1 ? 'a minute' : `${Math.ceil(next.minutes)} minutes’ worth, danger counted in`}; {next.gain.toFixed(1)} of {next.left.toFixed(1)} bits that are left to find out.</p>
    </section>
  );
}

function Other({ onSeen }: { readonly onSeen: (text: string) => void }): ReactElement {
  const [text, setText] = useState('');
  return (
    <details>
      <summary>Something else that was seen</summary>
      <form className="give" onSubmit={(event) => { event.preventDefault(); if (text.trim() === '') return; onSeen(text.trim()); setText(''); }}>
        <label className="typed">written as <input value={text} placeholder="F1.a-chassis=12.1 V, K1.closes=no" autoComplete="off" spellCheck={false} onChange={(event) => setText(event.target.value)} /></label>
        <button type="submit">Take it down</button>
      </form>
    </details>
  );
}
