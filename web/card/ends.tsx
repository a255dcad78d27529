/** Ports of a part, or both ends of a run: what is on them, and where there is room. */
import type { ReactElement } from 'react';
import type { Card } from '../analysis/protocol.ts';
import { useActs } from '../bench.ts';

export function Ends({ card }: { readonly card: Card }): ReactElement {
  const acts = useActs();
  const isRun = card.path.startsWith('runs.');
  return (
    <section className="ends" aria-label={isRun ? `Ends of ${card.title}` : `Ports of ${card.title}`}>
      <h3>{isRun ? 'Its ends' : 'Its ports'}</h3>
      <ul>
        {card.ends.map((end) => (
          <li key={end.point} data-carries={end.carries}>
            <span className="mono end-point">{end.point}</span> <span className="muted">{end.meaning} ({end.carries.replaceAll('_', ' ')})</span>
            <span className="end-runs">
              {isRun && <button type="button" className="link" onClick={() => acts.select(`parts.${end.point.split('.')[0]}`)}>part {end.point.split('.')[0]}</button>}
              {end.runs.map(({ name, to }) => <button key={name} type="button" className="link" onClick={() => acts.select(`runs.${name}`)}>{name} to {to}</button>)}
              {end.free > 0 && !isRun && <button type="button" onClick={() => { acts.setJoining(end.point); acts.announce(`${end.point} is the first end. Pick the second.`); }} aria-label={`Join ${end.point} to another port`}>Join…</button>}
              {end.runs.length === 0 && !isRun && <span className="muted">nothing on it</span>}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
