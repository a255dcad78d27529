/** What to look at next: where the probes go (they stand on the drawing), what each outcome would leave, and where the answer is entered. */
import { useEffect, useRef, useState } from 'react';
import type { ReactElement } from 'react';
import type { FaultAnswer } from '../analysis/protocol.ts';
import { useActs, useBench } from '../bench.ts';

export function NextTest({ next, isBusy, takesFocus, onSeen }: { readonly next: NonNullable<FaultAnswer['next']>; readonly isBusy: boolean; /** what had it went away with the answer */ readonly takesFocus: boolean; readonly onSeen: (text: string) => Promise<boolean> }): ReactElement {
  const acts = useActs();
  const { pointAt } = useBench('fault');
  const [value, setValue] = useState('');
  const [red, black] = next.points;
  const section = useRef<HTMLElement>(null);
  useEffect(() => { if (takesFocus && (document.activeElement === null || document.activeElement === document.body)) section.current?.focus(); }, [takesFocus]);
  const place = JSON.stringify([next.points, next.subjects]);
  useEffect(() => {
    const [points, subjects] = JSON.parse(place) as [string[], string[]];
    pointAt(points.length + subjects.length === 0 ? undefined : { points, subjects, asked: 0 });
    return () => pointAt(undefined);
  }, [place, pointAt]);
  const showWhere = (): void => {
    acts.show(next.danger === 'high' ? 'high-voltage' : 'low-voltage');
    pointAt({ points: next.points, subjects: next.subjects, asked: (acts.now().pointed?.asked ?? 0) + 1 });
    // on a narrow screen the paper lies above
    document.querySelector('.paper')?.scrollIntoView({ block: 'nearest' });
  };
  const askMeter = (): void => {
    if (next.asMeant) acts.choose({ state: next.asMeant });
    acts.setMeter({ isOut: true, red, black });
  };
  const give = async (found: string): Promise<void> => { if (await onSeen(`${next.look}=${found}${next.where}`)) setValue(''); };
  return (
    <section aria-label="Next" className="next-test" ref={section} tabIndex={-1}>
      <h3>Look at this next</h3>
      <p><strong>{next.says}</strong> {next.state}</p>
      {next.warning !== '' && <p className="above"><span aria-hidden="true">▲</span> {next.warning}</p>}
      {next.precautions.length > 0 && <ul className="precautions">{next.precautions.map((one) => <li key={one}>{one}</li>)}</ul>}
      {red !== undefined && black !== undefined && (
        <dl className="leads-on">
          <div><dt>{next.answers === 'voltage' ? 'Red lead' : 'One lead'}</dt><dd>{red}</dd></div>
          <div><dt>{next.answers === 'voltage' ? 'Black lead' : 'The other'}</dt><dd>{black === 'chassis' ? 'clean metal of the body' : black}</dd></div>
        </dl>
      )}
      {next.points.length + next.subjects.length > 0 && (
        <p className="field-ways">
          <button type="button" onClick={showWhere}>Show where</button>
          {next.asMeant && <button type="button" className="link" onClick={askMeter}>What it reads with nothing wrong</button>}
        </p>
      )}
      {next.answers === 'yes_no'
        ? <p className="field-ways"><button type="button" className="primary" disabled={isBusy} onClick={() => void give('yes')}>Yes</button> <button type="button" className="primary" disabled={isBusy} onClick={() => void give('no')}>No</button></p>
        : (
          <form className="give" onSubmit={(event) => { event.preventDefault(); if (value.trim() !== '') void give(value.trim()); }}>
            <label className="typed">it reads <input value={value} placeholder={next.answers === 'voltage' ? '12.4 V' : next.answers === 'current' ? '3.2 A' : '0.3 Ω, or open'} autoComplete="off" spellCheck={false} onChange={(event) => setValue(event.target.value)} /></label>
            <button type="submit" className="primary" disabled={isBusy}>Take it down</button>
          </form>
        )}
      <ul className="outcomes">{next.outcomes.map(({ says, chance, remain }) => <li key={`${says} ${remain}`}>{says} ({chance}): {remain}</li>)}</ul>
      <p className="muted">About {next.minutes < 1 ? 'a minute' : `${Math.ceil(next.minutes)} minutes’ worth, danger and setting up counted in`}. {next.gain} (now {next.left}).</p>
    </section>
  );
}
