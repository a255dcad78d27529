/**
 * Whether one more failure would be dangerous: pairs of failures that each close a high-voltage contact, solved together while the high voltage
 * should be off; covers that come off behind a bypassed interlock loop; a leak that a blind monitor does not see.
 */
import { REFERENCE_NODE } from '../../solve/element.ts';
import type { Car } from '../../car/car.ts';
import { metalOf } from '../../car/metal-graph.ts';
import type { FaultChange } from '../fault-change.ts';
import type { Hypothesis } from '../hypothesis.ts';
import type { StateSights } from '../predict-state.ts';
import type { Effect } from './effect.ts';
import type { Places } from './places.ts';

/** Pairs that are solved in one state. */
const MOST_PAIRS = 60;

export interface Closing { readonly hypothesis: Hypothesis; /** contacts that it closes, sorted */ readonly contacts: string }

/**
 * @param closing  failures that close a contact in this state, without high voltage outside
 * @returns by what each closes, what one more closes so that there is high voltage: contacts
 */
export function contactPairs(closing: readonly Closing[], sights: StateSights, isLive: (sight: NonNullable<ReturnType<StateSights['of']>>) => boolean): ReadonlyMap<string, readonly string[]> {
  const first = new Map<string, Hypothesis>();
  for (const { hypothesis, contacts } of closing) {
    const known = first.get(contacts);
    // a weld stays whatever happens around it: the plainest of its class
    if (!known || (known.changes.length > hypothesis.changes.length)) first.set(contacts, hypothesis);
  }
  const classes = [...first];
  const found = new Map<string, string[]>();
  let asked = 0;
  classes.forEach(([one, a], index) => {
    for (const [other, b] of classes.slice(index + 1)) {
      if (++asked > MOST_PAIRS) return;
      const sight = sights.of({ ...a, id: `${a.id} ${b.id}`, changes: [...a.changes, ...b.changes], silent: [...a.silent, ...b.silent] });
      if (!sight || !isLive(sight)) continue;
      found.set(one, [...(found.get(one) ?? []), other]);
      found.set(other, [...(found.get(other) ?? []), one]);
    }
  });
  return found;
}

/** Failures that touch an interlock loop in a way that may close it round a contact. */
export function mayBypass(car: Car, { loop }: Places, hypotheses: readonly Hypothesis[]): readonly Hypothesis[] {
  if (loop.length === 0) return [];
  const { netOf } = metalOf(car);
  const nets = new Set(loop.flatMap(({ a, b }) => [netOf(a), netOf(b)]));
  const elements = new Set(loop.flatMap((contact) => contact.elements));
  return hypotheses.filter(({ changes }) => changes.some((change) => (change.is === 'joined'
    ? [change.a, change.b].some((node) => node !== REFERENCE_NODE && nets.has(netOf(node)))
    : elements.has(change.element) && (change.is === 'stuck_closed' || change.is === 'shorted'))));
}

/** The contact opened in a car with a failure; undefined: the failure holds the contact itself, so that it cannot open. */
export function openedBeside({ elements }: Places['loop'][number], { changes }: Hypothesis): readonly FaultChange[] | undefined {
  const holds = changes.some((change) => (change.is === 'stuck_closed' || change.is === 'shorted') && elements.includes(change.element));
  return holds ? undefined : [...changes, ...elements.map((element): FaultChange => ({ is: 'open', element }))];
}

/** Effects that take a guard away, so that a second failure counts. */
export const takesGuard = ({ sort }: Effect): boolean => sort === 'contact_closes' || sort === 'loop_bypassed' || sort === 'monitor_blind' || sort === 'leak';
