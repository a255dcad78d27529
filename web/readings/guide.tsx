/** Assembly and first power-up on the screen: one step at a time, in letters that can be read from an arm's length, or the whole list. */
import { useEffect, useRef, useState } from 'react';
import type { ReactElement } from 'react';
import type { Guided, GuideStep } from '../analysis/protocol.ts';
import { useActs } from '../bench.ts';
import { BetterNumbers } from './better-numbers.tsx';
import { Entry } from './entry.tsx';
import { useGuide } from './use-guide.ts';
import type { GuideView } from './use-guide-open.ts';
import './guide.css';

const statusWords: Readonly<Record<GuideStep['status'], { readonly sign: string; readonly says: string }>> = {
  open: { sign: '·', says: 'not done' }, passed: { sign: '✓', says: 'passed' }, outside: { sign: '■', says: 'reading outside' },
  untold: { sign: '?', says: 'could not be told' }, repeat: { sign: '↻', says: 'do it again: the build has changed' },
};
const hazardWords: Readonly<Record<GuideStep['hazard'], string | undefined>> = {
  none: undefined, class_a: 'Up to 60 V: it burns and welds', class_b: 'More than 60 V: it can kill', moving: 'High voltage, and wheels may turn',
};
const leadWords = { red: 'Red lead (+)', black: 'Black lead (−)', either: 'Lead', tester: 'Test lead', earth: 'Other lead', clamp: 'Clamp around' } as const;

const titles: Readonly<Record<Guided, string>> = { assembly: 'Assembly', 'power-up': 'First power-up' };
const tabs: Readonly<Record<GuideView, string>> = { assembly: 'Assembly', 'power-up': 'Power-up', numbers: 'Better numbers' };

export function GuidedPowerUp({ name, shows, onShow, onLeave, onCautions }: { readonly name: string; readonly shows: GuideView; readonly onShow: (view: GuideView) => void; readonly onLeave: () => void; readonly onCautions: () => void }): ReactElement {
  const { announce } = useActs();
  // better numbers come from both; what is quickly worked out stands behind them
  const [last, setLast] = useState<Guided>(shows === 'numbers' ? 'assembly' : shows);
  const procedure = shows === 'numbers' ? last : shows;
  if (procedure !== last) setLast(procedure);
  const guide = useGuide(procedure);
  const { now, trouble, proposals } = guide;
  const [places, setPlaces] = useState<Partial<Record<Guided, number>>>({});
  const at = places[procedure];
  const setAt = (to: number): void => setPlaces((all) => ({ ...all, [procedure]: to }));
  const [isList, setList] = useState(false);
  const head = useRef<HTMLHeadingElement>(null);
  const screen = useRef<HTMLElement>(null);
  // where the log says, once it is known
  useEffect(() => { if (now) setPlaces((all) => (all[now.procedure] === undefined ? { ...all, [now.procedure]: now.goOn } : all)); }, [now]);
  const place = Math.min(at ?? 0, Math.max(0, (now?.steps.length ?? 1) - 1));
  const step = now?.steps[place];

  const go = (to: number): void => {
    setAt(to);
    setList(false);
    // the new step begins at its head, for eyes and for those who listen
    requestAnimationFrame(() => { screen.current?.scrollTo({ top: 0 }); head.current?.focus({ preventScroll: true }); });
  };
  const isHeld = step !== undefined && step.isHoldPoint && step.status !== 'passed';
  const forward = (): void => {
    if (!now || !step) return;
    if (isHeld) { announce('Hold point: its reading must be in and right before you go on.'); return; }
    go(Math.min(place + 1, now.steps.length - 1));
  };
  return (
    <div className="guide">
      <header className="guide-head">
        <div><p className="label">{shows === 'numbers' ? `Readings of ${name}` : `${titles[shows]} of ${name}`}</p><p className="guide-count">{shows === 'numbers' ? 'Better numbers' : now && step ? <>Step {place + 1} of {now.steps.length} <span className="muted">· {now.passed} passed</span></> : now ? 'No steps' : 'Working out the steps …'}</p></div>
        <div className="guide-acts">
          {shows !== 'numbers' && <button type="button" aria-pressed={isList} onClick={() => setList(!isList)} disabled={!now}>All steps</button>}
          <button type="button" onClick={onCautions}>Cautions</button>
          <button type="button" onClick={onLeave}>Leave</button>
        </div>
        <nav className="guide-views" aria-label="Procedures">
          {(['assembly', 'power-up'] as const).map((view) => <button type="button" key={view} aria-current={shows === view ? 'page' : undefined} onClick={() => { setList(false); onShow(view); }}>{tabs[view]}</button>)}
          <button type="button" aria-current={shows === 'numbers' ? 'page' : undefined} onClick={() => onShow('numbers')}>{tabs.numbers}{proposals !== undefined && proposals.length > 0 ? ` (${proposals.length})` : ''}</button>
        </nav>
        {now && shows !== 'numbers' && <progress aria-label="Steps passed" value={now.passed} max={Math.max(1, now.steps.length)} />}
      </header>
      <main className="guide-screen" ref={screen}>
        {trouble !== undefined && <p className="problems" role="alert">{trouble}</p>}
        {now?.problems.map((problem) => <p className="problems" key={problem}>{problem}</p>)}
        {shows === 'numbers' ? <BetterNumbers proposals={proposals} />
          : !now ? trouble === undefined && <p className="waiting">Working out what every meter should read …</p>
          : now.steps.length === 0 ? <p className="waiting">{now.why ?? 'There is nothing to do.'}</p>
            : isList ? <StepList steps={now.steps} at={place} onGo={go} />
              : step && (
                <article className="step" aria-labelledby="step-title" key={step.id}>
                  <p className="step-phase label">{step.phase}</p>
                  <h1 id="step-title" ref={head} tabIndex={-1}>{step.title}</h1>
                  <ul className="step-signs">
                    {step.isHoldPoint && <li className="sign-hold"><span aria-hidden="true">■ </span>Hold point</li>}
                    {hazardWords[step.hazard] !== undefined && <li className="sign-hazard" data-hazard={step.hazard}><span aria-hidden="true">▲ </span>{hazardWords[step.hazard]}</li>}
                    {step.status !== 'open' && <li className="sign-status" data-status={step.status}><span aria-hidden="true">{statusWords[step.status].sign} </span>{statusWords[step.status].says}</li>}
                  </ul>
                  <p className="step-people"><strong>Who stands where.</strong> {step.people}</p>
                  {step.cautions.map((caution) => <p className="step-caution" key={caution}><span aria-hidden="true">▲ </span><strong>Caution.</strong> {caution}</p>)}
                  <p className="step-action">{step.action}</p>
                  {step.isMeasured && <Measuring step={step} />}
                  {step.expect !== '' && <p className="step-expect"><strong>Expect.</strong> {step.expect}</p>}
                  {step.instead !== '' && <p className="step-instead"><strong>If instead.</strong> {step.instead}</p>}
                  {step.willFail && <p className="problems">The file’s own values pass this limit: put that right first.</p>}
                  {step.unknown.length > 0 && <p className="hint">Not known in the file: {step.unknown.join(', ')}.</p>}
                  {step.heldBy === undefined
                    ? <Entry key={step.id} step={step} guide={guide} />
                    : <p className="step-held"><span aria-hidden="true">■ </span>Not yet: the hold point “{now.steps[step.heldBy]?.title}” comes before it. <button type="button" className="big" onClick={() => go(step.heldBy ?? 0)}>Go to step {step.heldBy + 1}</button></p>}
                  <p className="hint">A model never proves that a circuit is dead. Only a meter does, tried on a known source before and after.</p>
                </article>
              )}
      </main>
      {shows !== 'numbers' && now && !isList && step && (
        <nav className="guide-foot" aria-label="Steps">
          <button type="button" className="big" disabled={place === 0} onClick={() => go(place - 1)}>Previous</button>
          <button type="button" className="big" onClick={forward} aria-disabled={isHeld || place === now.steps.length - 1} aria-describedby={isHeld ? 'why-held' : undefined}>Next</button>
          {isHeld && <p id="why-held" className="guide-why">{step.heldBy === undefined ? `Hold point: first its ${step.isMeasured ? 'reading' : 'answer'}.` : `The hold point of step ${step.heldBy + 1} comes first.`}</p>}
        </nav>
      )}
    </div>
  );
}

function Measuring({ step }: { readonly step: GuideStep }): ReactElement {
  return (
    <dl className="measuring">
      {step.probes.map(({ lead, on }) => <div key={`${lead} ${on}`} data-lead={lead}><dt>{leadWords[lead]}</dt><dd className="mono">{on}</dd></div>)}
      {step.state !== '' && <div><dt>State</dt><dd>{step.state}</dd></div>}
      {step.instrument !== '' && <div><dt>With</dt><dd>{step.instrument}</dd></div>}
      <div className="should"><dt>Should read</dt><dd>{step.shouldRead === undefined ? (step.notPredicted === undefined ? <>see the limit</> : <>no prediction: {step.notPredicted}</>) : <><span className="should-value">{step.shouldRead}</span> <span>{step.band}</span></>}</dd></div>
      {step.limit !== undefined && <div><dt>Limit</dt><dd>{step.limit}</dd></div>}
    </dl>
  );
}

function StepList({ steps, at, onGo }: { readonly steps: readonly GuideStep[]; readonly at: number; readonly onGo: (to: number) => void }): ReactElement {
  return (
    <section aria-labelledby="all-steps">
      <h1 id="all-steps">All steps</h1>
      {[...new Set(steps.map(({ phase }) => phase))].map((phase) => (
        <section key={phase} aria-label={phase}>
          <h2>{phase}</h2>
          <ol className="step-list">{steps.map((step, index) => step.phase === phase && (
            <li key={step.id} data-status={step.status}><button type="button" aria-current={index === at ? 'step' : undefined} onClick={() => onGo(index)}>
              <span className="step-number">{index + 1}</span> <span className="step-sign" aria-hidden="true">{statusWords[step.status].sign}</span>
              <span className="step-name">{step.title}{step.isHoldPoint && <span className="muted"> · hold point</span>}</span>
              <span className="unseen">, {statusWords[step.status].says}</span>{step.status !== 'open' && <span className="step-last muted">{step.readings.at(-1)?.reading}</span>}
            </button></li>
          ))}</ol>
        </section>
      ))}
    </section>
  );
}
