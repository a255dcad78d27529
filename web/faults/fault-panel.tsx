/** Why does it do nothing: a conversation. What was asked for, what happens instead, what may be wrong, and what to look at next. */
import { memo, useRef, useState } from 'react';
import type { ReactElement } from 'react';
import type { FaultAnswer } from '../analysis/protocol.ts';
import { useActs, useBench } from '../bench.ts';
import { remember, remembered } from '../people/remembered.ts';
import { NextTest } from './next-test.tsx';
import { useConversation } from './use-conversation.ts';
import type { Conversation } from './use-conversation.ts';
import './faults.css';

const text = (value: unknown): string | undefined => (typeof value === 'string' ? value : undefined);

export const FaultPanel = memo(function FaultPanel(): ReactElement {
  const { setOpen, trouble } = useBench('fault');
  const talk = useConversation();
  const hasSpoken = useRef(false);
  const say = (said: Parameters<Conversation['say']>[0]): Promise<boolean> => { hasSpoken.current = true; return talk.say(said); };
  const { answer, isAsking, failure } = talk;
  const isBegun = answer !== undefined && answer.path.length > 0;
  const isOpen = answer !== undefined && answer.end === undefined;
  // of what was said last: the next test is still being worked out
  const isRanked = isAsking && answer !== undefined && answer.causes.length > 0 && !answer.next && !answer.verdict;
  return (
    <div className="faults">
      <div className="meter-head"><h2>Why does it do nothing?</h2><button type="button" className="quiet" onClick={() => setOpen(false)}>Put away</button></div>
      {trouble !== undefined && <p className="refusal" role="alert">{trouble}</p>}
      {answer && (
        <>
          <Which answer={answer} talk={talk} />
          {answer.end !== undefined && <p role="status">Ended{answer.end === '' ? '' : `: ${answer.end}`}.</p>}
          {isOpen && <Symptoms answer={answer} talk={{ ...talk, say }} isFolded={isBegun} />}
          {answer.problems.map((says) => <p key={says} className="refusal" role="alert">{says}</p>)}
          {isBegun && <PathTaken answer={answer} talk={talk} isOpen={isOpen} />}
        </>
      )}
      {talk.refusal !== undefined && <p className="refusal" role="alert">{talk.refusal}</p>}
      {talk.unkept && <p className="refusal" role="alert">{talk.unkept.count === 1 ? 'What was said last is' : `${talk.unkept.count} things said are`} not in the file yet: {talk.unkept.why}. <button type="button" disabled={talk.isBusy} onClick={talk.unkept.again}>Try again</button></p>}
      {failure !== undefined && <p className="refusal" role="alert">{failure}</p>}
      <div aria-live="polite" className={isAsking ? 'fault-answer stale' : 'fault-answer'} data-ranked={isRanked ? '' : undefined}>
        {isAsking && failure === undefined && <p className="muted">{isRanked ? 'Working out what to look at next …' : 'Working out what each fault would look like …'}</p>}
        {answer?.verdict && <Found verdict={answer.verdict} />}
        {isOpen && answer.next && <NextTest key={`${answer.next.look}${answer.next.where}${answer.path.length}`} next={answer.next} isBusy={talk.isBusy || isAsking} takesFocus={hasSpoken.current} onSeen={(seen) => say({ is: 'seen', text: seen })} />}
        {isBegun && <Causes answer={answer} />}
        {isBegun && isOpen && !answer.next && !answer.verdict && !isAsking && <p>Nothing on offer tells more. Look at what remains, likeliest first; or measure where the file may be wrong.</p>}
      </div>
      {isOpen && <Other onSeen={(seen) => say({ is: 'seen', text: seen })} />}
      {isBegun && isOpen && <End talk={talk} isFound={answer.verdict !== undefined} />}
      <ul className="cautions-short">
        <li>This work can kill and can burn a house down. Qualified help, local codes and inspection decide.</li>
        <li>A model never proves that a circuit is dead. Only a meter does, tried on a known source before and after.</li>
        {answer && answer.count > 0 && <li>{answer.count} things that may be wrong come from the build file; how likely each was at first is common practice.</li>}
      </ul>
    </div>
  );
});

/** Which conversation, which mode it is about, and who looks. Another mode begins another one. */
function Which({ answer, talk }: { readonly answer: FaultAnswer; readonly talk: Conversation }): ReactElement {
  const [who, setWho] = useState(() => remembered('who', text) ?? '');
  return (
    <div className="which">
      {answer.cases.length > 0 && (
        <label className="typed">conversation <select value={answer.name} onChange={(event) => talk.choose(event.target.value)}>
          <option value="">a new one</option>
          {answer.cases.map(({ name, says }) => <option key={name} value={name}>{name} ({says})</option>)}
        </select></label>
      )}
      <label className="typed">asked for <select value={answer.mode ?? ''} onChange={(event) => talk.beginIn(event.target.value)}>{answer.modes.map((mode) => <option key={mode}>{mode}</option>)}</select></label>
      <label className="typed">who looks <input value={who} autoComplete="name" onChange={(event) => { setWho(event.target.value); remember('who', event.target.value); }} /></label>
      <p className="hint">All that is said is kept in readings.csv{answer.name === '' ? '' : ` as ${answer.name}`}. Another mode begins another conversation.</p>
    </div>
  );
}

function Symptoms({ answer, talk, isFolded }: { readonly answer: FaultAnswer; readonly talk: Conversation; readonly isFolded: boolean }): ReactElement {
  const line = (name: string): FaultAnswer['path'][number] | undefined => answer.path.find(({ symptom }) => symptom === name);
  const boxes = answer.symptoms.map(({ name, meaning, instead }) => (instead !== undefined && line(name) === undefined ? (
    <p key={name} className="hint">{meaning}: <button type="button" className="link" disabled={talk.isBusy} onClick={() => talk.beginIn(instead)}>is said of mode {instead}</button></p>
  ) : (
    <label key={name}><input type="checkbox" checked={talk.pending.get(name) ?? line(name) !== undefined} onChange={(event) => {
      const known = line(name);
      if (event.target.checked) void talk.say({ is: 'symptom', text: name });
      else if (known) talk.takeBack(known.id, name);
    }} /> <span>{meaning}</span></label>
  )));
  if (!isFolded) return <fieldset className="symptoms"><legend>What happens instead</legend>{boxes}</fieldset>;
  return <details className="symptoms-folded"><summary>What happens instead</summary><fieldset className="symptoms"><legend className="unseen">What happens instead</legend>{boxes}</fieldset></details>;
}

function PathTaken({ answer, talk, isOpen }: { readonly answer: FaultAnswer; readonly talk: Conversation; readonly isOpen: boolean }): ReactElement {
  const acts = useActs();
  const last = answer.path.at(-1);
  return (
    <section aria-label="Seen so far">
      <h3>Seen so far</h3>
      <ol className="noted seen">{answer.path.map(({ id, says, symptom }, index) => (
        <li key={id}><span>{index + 1}. {says}</span> {isOpen && <button type="button" className="link" disabled={talk.isBusy} onClick={() => talk.takeBack(id, symptom)} aria-label={`Take back: ${says}`}>take back</button>}</li>
      ))}</ol>
      {answer.takenBack.length > 0 && <p className="hint">Taken back, and kept in the file as such: {answer.takenBack.join('; ')}.</p>}
      <p className="field-ways">
        {isOpen && last && <button type="button" disabled={talk.isBusy} onClick={() => talk.takeBack(last.id, last.symptom)}>Undo the last answer</button>}
        <button type="button" className="link" onClick={() => acts.show('fault-finding')}>Print the path: the sheet of it</button>
      </p>
    </section>
  );
}

function Causes({ answer }: { readonly answer: FaultAnswer }): ReactElement {
  const acts = useActs();
  return (
    <section aria-label="It may be">
      <h3>It may be</h3>
      <ol className="causes">{answer.causes.map(({ says, chance, share, path }) => (
        <li key={says}>
          <span className="chance"><span className="chance-bar" aria-hidden="true" style={{ width: `${Math.max(1, Math.round(100 * share))}%` }} />{chance}</span>
          {path === '' ? <span>{says}</span> : <button type="button" className="link" onClick={() => acts.select(path)}>{says}</button>}
        </li>
      ))}</ol>
      {answer.withPairs && <p className="muted">No single fault explains what was seen: two at once were looked for as well.</p>}
    </section>
  );
}

function Found({ verdict }: { readonly verdict: NonNullable<FaultAnswer['verdict']> }): ReactElement {
  const acts = useActs();
  return (
    <section aria-label="Found">
      <h3>{verdict.causes.length === 1 ? `It is this (${verdict.chance})` : `It is one of these (${verdict.chance}); no reading away from exposed high voltage tells them apart`}</h3>
      <ul className="found">{verdict.causes.map(({ says, confirm, mend, path }) => (
        <li key={says}><p><strong>{says}.</strong> {path !== '' && <button type="button" className="link" onClick={() => acts.select(path)}>Show it</button>}</p><p>To confirm: {confirm}</p><p>To mend: {mend}</p></li>
      ))}</ul>
      <p>After mending take the readings of the first power-up again where you have been.</p>
    </section>
  );
}

function Other({ onSeen }: { readonly onSeen: (text: string) => Promise<boolean> }): ReactElement {
  const [text, setText] = useState('');
  return (
    <details>
      <summary>Something else that was seen</summary>
      <form className="give" onSubmit={(event) => { event.preventDefault(); if (text.trim() !== '') void onSeen(text.trim()).then((isTaken) => { if (isTaken) setText((now) => (now === text ? '' : now)); }); }}>
        <label className="typed">written as <input value={text} placeholder="F1.a-chassis=12.1 V, or K1.closes=no" autoComplete="off" spellCheck={false} onChange={(event) => setText(event.target.value)} /></label>
        <button type="submit">Take it down</button>
      </form>
    </details>
  );
}

function End({ talk, isFound }: { readonly talk: Conversation; readonly isFound: boolean }): ReactElement {
  const [note, setNote] = useState('');
  return (
    <details open={isFound ? true : undefined}>
      <summary>{isFound ? 'Mended: end the conversation' : 'End the conversation'}</summary>
      <form className="give" onSubmit={(event) => { event.preventDefault(); talk.end(note.trim()); }}>
        <label className="typed">what came of it <input value={note} placeholder="new fuse, short in V07 mended" autoComplete="off" onChange={(event) => setNote(event.target.value)} /></label>
        <button type="submit" disabled={talk.isBusy}>End it</button>
      </form>
    </details>
  );
}
