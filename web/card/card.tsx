/** The card of what is selected: every field it may have, its ends, its findings, and what can be done with it. */
import { memo, useEffect, useRef, useState } from 'react';
import type { ReactElement } from 'react';
import type { Card as CardAnswer, CardField } from '../analysis/protocol.ts';
import { useBench } from '../bench.ts';
import { FindingItem } from '../findings/finding-item.tsx';
import { useWays } from '../findings/use-ways.ts';
import { CardActions } from './card-actions.tsx';
import { Ends } from './ends.tsx';
import { Field } from './field.tsx';
import { AnsweredProvider, bellOfAnswers } from './answered.ts';
import { useCard } from './use-card.ts';
import './card.css';

export const Card = memo(function Card(): ReactElement {
  const selected = useBench('selected');
  const { card, answers } = useCard(selected);
  const [bell] = useState(bellOfAnswers);
  useEffect(() => bell.ring(), [bell, answers]);
  if (card === undefined) return <p className="muted">Looking …</p>;
  if (card === null) return <p className="muted">The build has nothing at {selected}.</p>;
  return <AnsweredProvider value={bell}><CardBody card={card} asked={selected ?? ''} /></AnsweredProvider>;
});

const CardBody = memo(function CardBody({ card, asked }: { readonly card: CardAnswer; readonly asked: string }): ReactElement {
  const body = useRef<HTMLDivElement>(null);
  const isSilent = (field: CardField): boolean => field.need !== 'required' && field.written === '' && field.problems.length === 0;
  const [written, handbook, other] = [card.fields.filter((field) => !isSilent(field)), card.fields.filter((field) => isSilent(field) && field.instead !== undefined), card.fields.filter((field) => isSilent(field) && field.instead === undefined)];
  const isAskedIn = (fields: readonly CardField[]): boolean => fields.some(({ path }) => asked === path || asked.startsWith(`${path}.`));
  useFocusOn(asked, body);
  return (
    <div className="card-body" ref={body}>
      <h2>{card.title}</h2>
      <p className="card-meaning">{card.meaning}</p>
      <CardActions card={card} />
      {written.map((field) => <Field key={field.path} field={field} />)}
      <Fold title={card.path.startsWith('runs.') || card.path.startsWith('parts.') ? 'Not given; another value counts' : 'Not given; the handbook counts'} fields={handbook} isAsked={isAskedIn(handbook)} />
      <Fold title="Not given" fields={other} isAsked={isAskedIn(other)} />
      {card.ends.length > 0 && <Ends card={card} />}
      <CardFindings card={card} />
    </div>
  );
});

/** Fields of which the file says nothing, folded away until wanted. */
function Fold({ title, fields, isAsked }: { readonly title: string; readonly fields: readonly CardField[]; readonly isAsked: boolean }): ReactElement | null {
  const [isOpen, setOpen] = useState(isAsked);
  // open at once, so that the focus finds its field there
  const [wasAsked, setWasAsked] = useState(isAsked);
  if (wasAsked !== isAsked) { setWasAsked(isAsked); if (isAsked) setOpen(true); }
  if (fields.length === 0) return null;
  return (
    <details className="fold" open={isOpen} onToggle={(event) => setOpen(event.currentTarget.open)}>
      <summary>{title} ({fields.length})</summary>
      {isOpen && fields.map((field) => <Field key={field.path} field={field} />)}
    </details>
  );
}

/** A path of a field puts the focus into that field, once each time it is asked for. */
function useFocusOn(asked: string, body: React.RefObject<HTMLDivElement | null>): void {
  const done = useRef('');
  useEffect(() => {
    if (done.current === asked || asked.split('.').length < 3 && !/^(?:vehicle|conditions)\./.test(asked)) return;
    const numbered = asked.replace(/\.at\.([012])$/, (_, index: string) => `.at.${'xyz'[Number(index)]}`);
    const inputs = [...body.current?.querySelectorAll<HTMLElement>('[data-path]') ?? []];
    const target = inputs.find((each) => each.dataset['path'] === numbered) ?? inputs.find((each) => each.dataset['path']?.startsWith(`${numbered}.`));
    if (!target) return;
    done.current = asked;
    target.focus();
    if (target instanceof HTMLInputElement) target.select();
  });
}

function CardFindings({ card }: { readonly card: CardAnswer }): ReactElement {
  const chances = useBench('chances');
  const ways = useWays();
  const drawn = new Map(chances?.open.map((row) => [row.key, row]));
  const rows = card.findings.map((row) => drawn.get(row.key) ?? row);
  const open = rows.filter(({ level }) => level !== 'holds');
  return (
    <section className="card-findings" aria-label={`Findings about ${card.title}`}>
      <h3>Findings about it</h3>
      {open.length === 0 ? <p className="muted">Nothing stands open{rows.length > 0 ? `; ${rows.length} checks hold` : ''}.</p> : <ul>{open.map((row, index) => <FindingItem key={`${row.key} ${index}`} row={row} ways={ways} />)}</ul>}
      {open.length > 0 && rows.length > open.length && <p className="muted">{rows.length - open.length} more checks hold.</p>}
    </section>
  );
}
