/** A start for a build with nothing in it: plain questions in four steps. Every answer may be left out; the findings ask for it later. */
import { useState } from 'react';
import type { FormEvent, ReactElement } from 'react';
import type { Edit } from '../../core/build/edit-build.ts';
import { useActs, useBench } from '../bench.ts';
import { Question } from './question.tsx';
import { driveEdits, linkEdits, packEdits, vehicleEdits } from './start-edits.ts';
import type { Answers } from './start-edits.ts';
import { steps } from './start-steps.ts';

export function GuidedStart({ onLeave }: { readonly onLeave: () => void }): ReactElement {
  const acts = useActs();
  const outline = useBench('outline');
  const [at, setAt] = useState(0);
  const [answers, setAnswers] = useState<Answers>({ units: 'metric', chemistry: 'nmc', drive: 'drive_unit', material: 'copper', insulation: 'heat_shrink' });
  const [trouble, setTrouble] = useState<string>();
  const [isBusy, setBusy] = useState(false);
  const step = steps[at];
  const modules = outline?.parts.filter(({ kind, ports }) => kind === moduleKind && ports.every(({ free }) => free > 0)).map(({ name }) => name) ?? [];

  const editsOf = (): readonly Edit[] => {
    const names = new Set(outline?.parts.map(({ name }) => name) ?? []);
    switch (step?.name) {
      case 'vehicle': return vehicleEdits(acts.now().text, answers);
      case 'pack': return packEdits(answers, names);
      case 'drive': return driveEdits(answers, names);
      case 'links': return linkEdits(answers, modules, new Set(outline?.runs.map(({ name }) => name) ?? []));
      case undefined: return [];
    }
  };
  const write = async (event: FormEvent): Promise<void> => {
    event.preventDefault();
    if (!step) return;
    setBusy(true);
    const problem = await acts.edit(editsOf(), `guided start: ${step.title.toLowerCase()}`);
    setBusy(false);
    setTrouble(problem);
    if (problem === undefined) go(at + 1);
  };
  const go = (to: number): void => { setTrouble(undefined); setAt(to); acts.announce(steps[to]?.title ?? 'The start is made.'); };
  return (
    <section className="start" aria-labelledby="start-head">
      <p className="label">Guided start</p>
      <ol className="start-steps">{steps.map(({ name, title }, index) => <li key={name} aria-current={index === at ? 'step' : undefined} data-done={index < at ? '' : undefined}>{title}</li>)}</ol>
      {step ? (
        <form className="form" onSubmit={(event) => void write(event)} key={step.name}>
          <h2 id="start-head">{step.title}</h2>
          <p>{step.says}</p>
          {step.questions.map((question) => <Question key={question.field} question={question} value={answers[question.field] ?? ''} onChange={(value) => setAnswers((now) => ({ ...now, [question.field]: value }))} />)}
          {step.name === 'links' && <p className="hint">{modules.length < 2 ? 'There are not two free modules to join yet.' : `Joins ${modules.slice(0, 3).join(', ')}${modules.length > 3 ? ` … ${modules.at(-1)}` : ''}: positive to the next negative.`}</p>}
          {trouble !== undefined && <p className="problems" role="alert">{trouble}</p>}
          <p className="form-end">
            <button type="submit" className="primary" disabled={isBusy || (step.name === 'links' && modules.length < 2)}>Write and go on</button>
            <button type="button" onClick={() => go(at + 1)}>Skip</button>
            {at > 0 && <button type="button" onClick={() => go(at - 1)}>Back</button>}
            <button type="button" className="quiet" onClick={onLeave}>Leave the start</button>
          </p>
        </form>
      ) : (
        <div>
          <h2 id="start-head">The start is made</h2>
          <p>What is missing stands among the findings, worst first. Fuses, contactors, precharge and the service disconnect come next: add each with <em>Add a part</em> and join its ports. Nothing here has been weighed or measured by this program.</p>
          <p className="form-end"><button type="button" className="primary" onClick={onLeave}>To the sheets</button></p>
        </div>
      )}
    </section>
  );
}

/** the kind of part that this start itself writes */
const moduleKind = 'battery_module';
