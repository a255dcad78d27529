/** What a failure changes in one state of the car: its sight against that of the car with nothing wrong. */
import type { Car } from '../../car/car.ts';
import { ownerOf } from '../../car/metal-graph.ts';
import { REFERENCE_NODE } from '../../solve/element.ts';
import { BLOWS } from '../blown-fuses.ts';
import type { Hypothesis } from '../hypothesis.ts';
import type { Sight } from '../predict-state.ts';
import type { Thing } from '../things.ts';
import type { Effect, Notice } from './effect.ts';
import type { Places } from './places.ts';
import { CLASS_A_HIGHEST } from '../../physics/voltage-class.ts';

/** A wire overheats above this share of what it may carry for good: the current at which a fuse that protects it must have opened. Common practice, no source. */
const OVERLOAD = 1.45;
/** In a mode that lasts seconds: above this share, common practice, no source. */
const PULSE = 3;
/** Without a lower limit in the file a unit works down to this share of what it has with nothing wrong; common practice, no source. */
const WORKS = 0.6;
/** A fuse in line with a wire carries this share of its current at least: some may branch off between them. Our choice. */
const SAME = 0.8;
/** A bus is off below this share of the pack's voltage, and has risen above it beyond this one; our choice. */
const DEAD = 0.5;
const RISEN = 1.3;
/** An output with a limit switches itself off above this share of it; common practice, no source. */
const TRIPS = 1.5;
/** A way to the chassis of less than this is a leak [ohm]; without a monitor's own limit. Our choice: about 100 Ω/V of a pack of 400 V need 40 kΩ. */
const LEAKS = 40e3;
/** An input that moves by this is read as another one [V]; common practice, no source. */
const READ_AS_OTHER = 3;

/** With key and switches off only what holds on counts: the rest is as it was while driving. */
export const HOLDS_ON: ReadonlySet<Effect['sort']> = new Set(['high_voltage_on', 'torque_appears', 'contact_closes']);

export interface Seen { readonly effects: readonly Effect[]; readonly notices: readonly Notice[]; readonly seenAt: readonly string[] }

const NOTHING: Seen = { effects: [], notices: [], seenAt: [] };

/**
 * @param base  with nothing wrong
 * @param isShort  the mode lasts seconds
 * @param sight  with the failure; undefined: the network has no answer
 */
export function effectsIn(car: Car, places: Places, base: Sight, sight: Sight | undefined, { changes, about }: Hypothesis, isHigh: (node: string) => boolean, isShort: boolean): Seen {
  if (!sight) return { ...NOTHING, effects: [{ sort: 'not_solved', about: [] }] };
  const { watched: { things, runs, points }, placeOf, buses, contacts, consumers, inputs, ampacities, monitors, outputs, fuses, packVoltage, mains } = places;
  const effects: Effect[] = [];
  const add = (sort: Effect['sort'], names: readonly string[], amount?: number): void => { if (names.length > 0) effects.push({ sort, about: [...new Set(names)], ...(amount === undefined ? {} : { amount }) }); };
  const notices: Notice[] = [];
  const volts = ({ volts: of }: Sight, a: string, b: string): number => { const [one, other] = [placeOf.get(a), placeOf.get(b)]; return one === undefined || other === undefined ? 0 : of[one]! - of[other]!; };
  const went = (what: Thing['what'], to: 0 | 1): readonly Thing[] => things.filter((thing, index) => thing.what === what && sight.does[index] === to && base.does[index] !== to);
  const isTraction = ({ of }: Thing): boolean => car.parts.get(of)?.roles.traction !== undefined;

  if (sight !== base) {
    const onBus = (of: Sight, { a, b }: { readonly a: string; readonly b: string }): number => Math.abs(volts(of, a, b));
    const live = buses.filter((bus) => onBus(sight, bus) > CLASS_A_HIGHEST && onBus(base, bus) <= CLASS_A_HIGHEST && onBus(base, bus) < DEAD * packVoltage);
    add('high_voltage_on', live.map(({ part }) => part), Math.max(0, ...live.map((bus) => onBus(sight, bus))));
    add('overvoltage', buses.filter((bus) => !live.includes(bus) && onBus(sight, bus) > RISEN * Math.max(packVoltage, onBus(base, bus))).map(({ part }) => part));
    const openedHere = new Set(sight.blown.map(ownerOf));
    let hottest = 0, load = 0;
    const hot = runs.filter((run, n) => {
      if (run === undefined) return false;
      const now = Math.abs(sight.amps[n]!), can = ampacities[n]!;
      const isHot = now > (isShort ? PULSE : OVERLOAD) * can && now > 1.2 * Math.abs(base.amps[n]!);
      if (isHot && now / can > load) { load = now / can; hottest = now; }
      return isHot;
    });
    // electronics that know their own limit let go before the wire is hot
    const tripped = outputs.filter(({ run, rating }) => { const place = runs.indexOf(run); return Math.abs(sight.amps[place]!) > TRIPS * rating && Math.abs(base.amps[place]!) <= TRIPS * rating; });
    add('output_trips', tripped.map(({ part }) => part));
    const isMains = changes.some((change) => change.is === 'joined' && mains.has(change.a) !== mains.has(change.b));
    if (isMains && hot.length > 0) add('mains_trips', about);
    // what a load takes the other way is not computed to the end: a fuse that carries all of it may open once the wire is hot
    const isHighRun = (run: string | undefined): boolean => run !== undefined && car.runs.get(run)?.carries === 'high_voltage';
    const later = fuses.flatMap(({ ends, rating, part }) => {
      const now = Math.min(...ends.map((at) => Math.max(0, ...at.map((run) => Math.abs(sight.amps[runs.indexOf(run)]!)))));
      return now >= BLOWS * rating && now >= SAME * hottest && isHighRun(ends[0]?.[0]) === isHighRun(hot[0]) && !openedHere.has(part) ? [part] : [];
    });
    if (tripped.length === 0 && !isMains && hot.length > 0) effects.push({ sort: 'overheats', about: hot as string[], amount: hottest, ...(later.length > 0 ? { later } : {}) });
    const high = new Set(contacts.map(({ part }) => part));
    const changedContacts = (to: 0 | 1): readonly string[] => went('closes', to).filter(({ of }) => high.has(of)).map(({ of }) => of);
    add('contact_closes', changedContacts(1));
    const dropped = changedContacts(0);
    add('contacts_drop', dropped);
    const torque = went('gives', 0).filter(isTraction).map(({ of }) => of);
    add('torque_lost', torque);
    add('torque_appears', went('gives', 1).filter(isTraction).map(({ of }) => of));
    if (torque.length > 0) notices.push({ by: 'car_stops', about: torque });
    add('gives_nothing', went('gives', 0).filter((thing) => !isTraction(thing)).map(({ of }) => of));
    const lost = consumers.filter(({ a, b, least }) => { const whole = volts(base, a, b), now = volts(sight, a, b); return whole > 5 && whole >= (least ?? 0) && now < (least ?? WORKS * whole); });
    add('supply_lost', lost.map(({ part }) => part));
    add('stops', [...went('runs', 0).map(({ of }) => of), ...went('closes', 0).map(({ of }) => of).filter((name) => !high.has(name))].filter((name) => !lost.some(({ part }) => part === name)));
    add('runs_unasked', [...went('runs', 1), ...went('closes', 1).filter(({ of }) => !high.has(of)), ...went('gives', 1).filter((thing) => !isTraction(thing))].map(({ of }) => of));
    const lamps = [...went('lights', 0), ...went('lights', 1)].map(({ of }) => of);
    if (lamps.length > 0) notices.push({ by: 'lamp', about: [...new Set(lamps)] });
    const openedItself = new Set(changes.flatMap((change) => (change.is === 'open' ? [change.element] : [])));
    add('fuse_opens', sight.blown.filter((element) => !openedItself.has(element)).map(ownerOf));
  }

  // of the low-voltage side only what is wired; the high side is also what no probe reaches, inside a module
  const isThere = (node: string): boolean => node === REFERENCE_NODE || placeOf.has(node) || isHigh(node);
  const leak = changes.find((change) => change.is === 'joined' && isHigh(change.a) !== isHigh(change.b) && isThere(change.a) && isThere(change.b));
  if (packVoltage > CLASS_A_HIGHEST && leak?.is === 'joined' && leak.resistance < Math.max(LEAKS, ...monitors.map(({ warnBelow }) => warnBelow))) {
    add('leak', about.slice(0, 1));
    // it looks at the side that it hangs on, and only while it is fed
    const awake = monitors.filter(({ part, isHeard, warnBelow }) => { const index = things.findIndex(({ what, of }) => what === 'runs' && of === part); return isHeard && leak.resistance < warnBelow && (index < 0 || sight.does[index] === 1); });
    if (awake.length > 0) notices.push({ by: 'monitor', about: awake.map(({ part }) => part) });
  }
  // without its supply it misses something only while there is something to watch, and a bus that nothing but a braking motor lifts is dead in a moment
  const isLive = buses.some(({ a, b }) => { const now = Math.abs(volts(sight, a, b)); return now > CLASS_A_HIGHEST && now <= RISEN * Math.max(packVoltage, Math.abs(volts(base, a, b))); });
  const blind = packVoltage <= CLASS_A_HIGHEST ? [] : monitors.filter(({ part, looks }) => {
    const index = things.findIndex(({ what, of }) => what === 'runs' && of === part);
    return changes.some((change) => change.is === 'open' && looks.has(change.element)) || (index >= 0 && base.does[index] === 1 && sight.does[index] === 0 && isLive);
  });
  add('monitor_blind', blind.map(({ part }) => part));
  const seenAt = sight === base ? [] : inputs.filter((point) => { const place = placeOf.get(point); return place !== undefined && points[place] === point && Math.abs(sight.volts[place]! - base.volts[place]!) > READ_AS_OTHER; });
  return { effects, notices, seenAt };
}
