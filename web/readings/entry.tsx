/** Where a reading is entered, and what it means. Kept in the file only when the server has said so; until then it stands here. */
import { useEffect, useRef, useState } from 'react';
import type { FormEvent, ReactElement } from 'react';
import type { GuideStep, Judged } from '../analysis/protocol.ts';
import { useActs } from '../bench.ts';
import { remember, remembered } from '../people/remembered.ts';
import { newLineId } from './log-file.ts';
import type { Guide } from './use-guide.ts';

type Shown = Judged & { readonly ok: true };
const nobody = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);
/** A number alone gets the unit that stands beside it. */
const withUnit = (typed: string, unit: string): string => (/[\d.]\s*$/.test(typed) && !/[a-zΩµ°%]/i.test(typed) ? `${typed.trim()} ${unit}` : typed.trim());

export function Entry({ step, guide }: { readonly step: GuideStep; readonly guide: Guide }): ReactElement {
  const acts = useActs();
  const [typed, setTyped] = useState('');
  const [unit, setUnit] = useState(step.unit);
  const [who, setWho] = useState(() => remembered('who', nobody) ?? '');
  const [note, setNote] = useState('');
  const [corrects, setCorrects] = useState('');
  const [problem, setProblem] = useState<string>();
  const [verdict, setVerdict] = useState<Shown>();
  const [unkept, setUnkept] = useState<{ readonly cells: Readonly<Record<string, string>>; readonly why: string }>();
  const [isBusy, setBusy] = useState(false);
  const field = useRef<HTMLInputElement>(null);
  const result = useRef<HTMLDivElement>(null);
  useEffect(() => { if (verdict) result.current?.scrollIntoView({ block: 'nearest' }); }, [verdict]);

  const keep = async (cells: Readonly<Record<string, string>>): Promise<void> => {
    const why = await guide.add(cells);
    setUnkept((now) => (why !== undefined ? { cells, why } : now?.cells === cells ? undefined : now));
  };
  const enter = async (reading: string, isObservation: boolean): Promise<void> => {
    if (isBusy) return;
    setProblem(undefined);
    setBusy(true);
    const judged = await guide.judge(step.id, reading, isObservation, false).catch((error: unknown): Judged => ({ ok: false, problem: error instanceof Error ? error.message : String(error) }));
    setBusy(false);
    if (!judged.ok) { setProblem(judged.problem); field.current?.focus(); return; }
    setVerdict(judged);
    // what comes next may be typed while this one is on its way
    setTyped('');
    setNote('');
    setCorrects('');
    acts.announce(`${judged.word}. ${judged.says}`);
    remember('who', who);
    if (judged.word === 'outside' && !isObservation) void guide.judge(step.id, reading, false, true).then((more) => { if (more.ok) setVerdict((now) => (now === judged ? more : now)); }, () => undefined);
    await keep({
      id: newLineId(), who, procedure: guide.procedure, step: step.id, state: step.state, points: step.points.join(' '), quantity: isObservation ? 'observation' : step.quantity ?? 'observation',
      reading, instrument: isObservation ? '' : step.instrument, verdict: judged.word, revision: acts.now().study?.revision ?? '', rests_on: step.restsOn, replaces: corrects, note,
    });
  };
  const send = (event: FormEvent): void => {
    event.preventDefault();
    if (typed.trim() === '') { setProblem('Write what the meter shows.'); field.current?.focus(); return; }
    void enter(withUnit(typed, unit), false);
  };
  const asksAnswer = !step.isMeasured || step.status === 'untold';
  const needsNumber = step.isMeasured;
  return (
    <section className="entry" aria-label="Reading">
      {needsNumber && (
        <form onSubmit={send} noValidate>
          <div className="entry-line">
            <label className="entry-value">What the meter shows
              <input ref={field} value={typed} onChange={(event) => setTyped(event.target.value)} autoComplete="off" spellCheck={false} aria-invalid={problem !== undefined} aria-describedby={problem === undefined ? undefined : 'entry-problem'} />
            </label>
            <label className="entry-unit">Unit
              <select value={unit} onChange={(event) => setUnit(event.target.value)}>{step.units.map((one) => <option key={one}>{one}</option>)}</select>
            </label>
          </div>
          {problem !== undefined && <p className="problems" role="alert" id="entry-problem">{problem}</p>}
          <button type="submit" className="primary big" disabled={isBusy}>{corrects === '' ? 'Enter the reading' : 'Enter the correction'}</button>
        </form>
      )}
      {step.worked?.value !== undefined && <p><button type="button" className="big" disabled={isBusy} onClick={() => void enter(step.worked?.value ?? '', false)}>Take {step.worked.value}, worked out of the readings before</button></p>}
      {step.worked && <p className="hint">{step.worked.says}</p>}
      {asksAnswer && (
        <div role="group" aria-label={step.isMeasured ? 'Is it as it should be?' : 'Is it so?'} className="answers">
          <p className="entry-question">{step.isMeasured ? 'No number to compare with. Is it as it should be?' : step.isHoldPoint ? 'Hold point: is it so?' : 'Done?'}</p>
          <button type="button" className="primary big" disabled={isBusy} onClick={() => void enter('yes', true)}>{step.isMeasured || step.isHoldPoint ? 'Yes, it is so' : 'Yes, done'}</button>
          <button type="button" className="big" disabled={isBusy} onClick={() => void enter('no', true)}>No</button>
          {!needsNumber && problem !== undefined && <p className="problems" role="alert">{problem}</p>}
        </div>
      )}
      <div className="verdict-place" ref={result}>
        {verdict && (
          <div className="verdict" data-word={verdict.word} role="status">
            <p className="verdict-word"><span aria-hidden="true">{verdict.word === 'agrees' ? '✓' : verdict.word === 'outside' ? '■' : '?'}</span> {verdict.word === 'agrees' ? 'Agrees' : verdict.word === 'outside' ? 'Outside' : 'Cannot be told'}</p>
            <p>{verdict.says}</p>
            {verdict.meanings.length > 0 && <><p className="label">{verdict.meanings.some(({ fits }) => fits) ? 'What explains it, the likeliest first' : 'What moves it that way, but would not read this'}</p><ul>{verdict.meanings.map(({ part, says, reads }) => <li key={`${part ?? ''} ${says}`}>{part !== undefined && <strong>{part} </strong>}{says}{reads === undefined ? '' : ` (reads about ${reads} then)`}</li>)}</ul></>}
            {verdict.word === 'outside' && step.isMeasured && verdict.meanings.length === 0 && <p>No single fault that was tried explains it.</p>}
            {verdict.next !== '' && <p className="verdict-next">{verdict.next}</p>}
          </div>
        )}
      </div>
      {unkept && <p className="problems" role="alert">This reading is not in the file yet: {unkept.why}. <button type="button" disabled={isBusy} onClick={() => void keep(unkept.cells)}>Try again</button></p>}
      <details className="entry-more" open={corrects !== '' ? true : undefined}>
        <summary>Who, note, readings so far{step.readings.length > 0 ? ` (${step.readings.length})` : ''}</summary>
        <label>Who reads it<input value={who} onChange={(event) => setWho(event.target.value)} autoComplete="name" /></label>
        <label>Note<input value={note} onChange={(event) => setNote(event.target.value)} autoComplete="off" /></label>
        {step.readings.length > 0 && <ul className="entered">{step.readings.map(({ id, when, who: by, reading, verdict: word, isObservation }) => (
          <li key={id}><span className="mono">{reading}</span> {word} <span className="muted">{when.slice(0, 16).replace('T', ' ')} UTC {by}</span>
            {!isObservation && <button type="button" className="link" aria-pressed={corrects === id} onClick={() => { setCorrects(corrects === id ? '' : id); field.current?.focus(); }}>{corrects === id ? 'Do not correct it' : 'Correct it'}</button>}
          </li>
        ))}</ul>}
      </details>
    </section>
  );
}
