/** What stands at a piece of a low-voltage part: its symbol, what it is made for, its voltage and current in the chosen state, and whether it is on. */
import type { Analysis } from '../../core/analyse.ts';
import type { CarPart } from '../../core/car/car.ts';
import type { ConsumerRole } from '../../core/part/role.ts';
import { once } from '../diagram/car-texts.ts';
import type { CarTexts } from '../diagram/car-texts.ts';
import type { MarkLine, SymbolShown } from '../diagram/mark.ts';
import { portName } from '../diagram/port-name.ts';
import type { Way } from '../diagram/ways.ts';
import { symbolOf } from '../symbols/kind-symbols.ts';

export interface WayTexts {
  /** name of the part, with what the piece is where the part has several */
  readonly title: (way: Way) => string;
  readonly symbol: (way: Way) => SymbolShown;
  readonly lines: (way: Way) => readonly MarkLine[];
  /** in this state it takes nothing */
  readonly isOff: (way: Way) => boolean;
}

/** A consumer with less than this share of its lowest working voltage has no supply to speak of; the same share as the check of consumers takes. */
const OFF_SHARE = 0.25;
/** Less is no current that does work [A]. */
const OFF_CURRENT = 1e-4;

export function wayTexts({ car }: Analysis, texts: CarTexts): WayTexts {
  const { numbers, solved } = texts;
  const bus = highestSource(car.parts.values(), texts);

  const symbol = once((way: Way): SymbolShown => {
    const { part, elements } = way;
    const own = symbolOf(part.kind.kind).symbol;
    if (coilOf(way)) return { name: 'coil' };
    const contacts = elements.filter(({ type }) => type === 'switch' || type === 'relay');
    const [contact] = contacts;
    // also several in one line, such as an alarm contact that opens without its supply
    const isPlain = contacts.length > 0 && contacts.length === elements.length && way.ports.length === 2;
    const positions = contacts.map(({ id }) => texts.position(id));
    const position = !isPlain || positions.includes(undefined) ? undefined : positions.includes('open') ? 'open' : 'closed';
    const shown = position === undefined ? {} : { isClosed: position === 'closed' };
    if (isPlain && part.kind.family !== 'low_voltage' && !isBar(way)) return { name: 'make_contact', ...shown };
    if (isPlain && contact?.type === 'relay' && contact.contact === 'breaks') return { name: 'break_contact', ...shown };
    // electronics of a high-voltage part: a box that says what it is; what feeds the low voltage keeps its own sign
    if (part.kind.family === 'high_voltage' && !isBar(way) && !feeds(way)) return { name: 'unit' };
    // several contacts on one wiper: the words say which is closed
    if (contacts.length > 1 && contacts.length === elements.length) return { name: 'unit' };
    return { name: own, ...shown };
  });

  const lines = once((way: Way): readonly MarkLine[] => {
    const { part } = way;
    if (part.missing.length > 0) return [{ after: 'not computed: data missing', isMuted: true }];
    const coil = coilOf(way);
    const point = (port: string): string => `${part.name}.${port}`;
    if (coil) {
      const across = texts.between(point(coil.positive), point(coil.negative));
      const word = across === undefined ? undefined : Math.abs(across) >= coil.pickUp ? 'pulled in' : Math.abs(across) < coil.dropOut ? 'at rest' : 'between pull-in and drop-out';
      return [{ shown: texts.voltage(way.id, point(coil.positive), point(coil.negative)), ...(word === undefined ? {} : { next: { after: word } }) }];
    }
    if (isBar(way)) return barLines(way, texts);
    const consumer = consumerOf(way);
    if (consumer) return consumerLines(way, consumer);
    const source = sourceOf(part);
    if (source && feeds(way)) {
      return [...texts.rating(part), { shown: texts.voltage(way.id, point(source.positive), point(source.negative)), next: { before: source.isBattery ? '' : 'gives ', shown: texts.current(way.id, texts.currentAt(point(source.positive))) } }];
    }
    const first = way.ports.find(({ name }) => texts.runsAt(point(name)).length > 0);
    const current: MarkLine = { shown: texts.current(way.id, first ? texts.currentAt(point(first.name)) : solved && 0) };
    const shown = symbol(way);
    const rated = part.kind.family === 'low_voltage' && way.ports.length <= 2 && shown.name !== 'pins' ? texts.rating(part) : [];
    const isFuse = part.roles.protection?.some(({ a }) => way.ports.some(({ name }) => name === a)) === true;
    if (isFuse) return [{ ...(rated[0] ?? { after: '—' }), next: shown.isClosed === false ? { after: 'open' } : current }];
    if (shown.isClosed !== undefined && shown.name !== 'pins') return [...rated, { after: shown.isClosed ? 'closed' : 'open', next: current }];
    const closed = selectorLine(way, texts);
    if (closed) return [...texts.rating(part), closed];
    if (way.ports.length > 2 || way.ports.every(({ carries }) => carries === 'signal')) return rated;
    return [...rated, current];
  });

  const consumerLines = (way: Way, { positive, negative }: ConsumerRole): readonly MarkLine[] => {
    const { part } = way;
    const [a, b] = [`${part.name}.${positive}`, `${part.name}.${negative}`];
    const across = texts.between(a, b);
    const rated = part.kind.family === 'low_voltage' ? texts.rating(part) : [];
    if (!solved) return [...rated, { after: '—' }];
    if (across === undefined) return [...rated, { after: 'off: nothing feeds it' }];
    const current: MarkLine = { shown: texts.current(way.id, texts.currentAt(a)) };
    const voltage: MarkLine = { shown: texts.voltage(way.id, a, b) };
    if (isOff(way)) return [...rated, { after: 'off', next: voltage }];
    const drop: MarkLine[] = bus > 0 ? [{ before: 'lost on the way ', shown: numbers.result(`now ${way.id} drop`, Math.max(0, bus - across), 'voltage') }] : [];
    return [...rated, { ...voltage, next: current }, ...drop];
  };

  function isOff(way: Way): boolean {
    const role = consumerOf(way);
    if (!role || !solved) return false;
    const across = texts.between(`${way.part.name}.${role.positive}`, `${way.part.name}.${role.negative}`) ?? 0;
    return across < OFF_SHARE * (role.minimumVoltage ?? 0) || Math.abs(solved.currentOf(`${way.part.name}.${role.element}`)) < OFF_CURRENT;
  }

  return {
    symbol, lines, isOff,
    title: (way) => (way.id === way.part.name && !coilOf(way) && (way.part.kind.family === 'low_voltage' || isBar(way)) ? way.part.name : `${way.part.name} ${pieceName(way)}`.trim()),
  };
}

function pieceName(way: Way): string {
  if (coilOf(way)) return 'coil';
  if (feeds(way)) return 'output';
  if ((way.part.roles.interlock ?? []).some(([a]) => way.ports.some(({ name }) => name === a))) return 'interlock';
  if (way.part.roles.pins) return (way.ports[0]?.name ?? '').replace(/^[ab]_/, '');
  if (way.ports.some(({ name }) => name === way.part.roles.consumers?.[0]?.positive)) return way.part.kind.family === 'high_voltage' ? 'electronics' : '';
  const contact = way.part.roles.switching?.find(({ a, b }) => way.ports.some(({ name }) => name === a || name === b));
  if (contact) return way.part.roles.switching!.length > 1 ? `contact ${(way.ports[0]?.name ?? '').replace(/^\D+/, '')}`.trim() : 'contact';
  return way.ports[0]?.name.replace(/_[ab]$/, '') ?? '';
}

function coilOf({ part, ports }: Way) {
  const has = (port: string): boolean => ports.some(({ name }) => name === port);
  return ports.length === 2 ? part.roles.switching?.find(({ coil }) => coil && has(coil.positive) && has(coil.negative))?.coil : undefined;
}

export const consumerOf = ({ part, ports }: Way): ConsumerRole | undefined => part.roles.consumers?.find(({ positive }) => ports.some(({ name }) => name === positive));

function sourceOf({ roles }: CarPart): { readonly positive: string; readonly negative: string; readonly isBattery: boolean } | undefined {
  const role = roles.lowVoltageBattery ?? roles.lowVoltageSupply;
  return role && { positive: role.positive, negative: role.negative, isBattery: roles.lowVoltageBattery !== undefined };
}

const feeds = ({ part, ports }: Way): boolean => { const source = sourceOf(part); return source !== undefined && ports.some(({ name }) => name === source.positive); };

const isBar = ({ part }: Way): boolean => symbolOf(part.kind.kind).symbol === 'bar';

/** Which outputs of a selector are joined to its wiper now. */
function selectorLine({ part, ports, elements }: Way, { position }: CarTexts): MarkLine | undefined {
  const contacts = elements.filter((element) => element.type === 'switch' || element.type === 'relay');
  if (contacts.length < 2 || contacts.length !== elements.length) return undefined;
  const positions = contacts.map(({ id, a, b }) => ({ position: position(id), ends: [a, b] }));
  if (positions.every((one) => one.position === undefined)) return undefined;
  const wiper = ports.map(({ name }) => `${part.name}.${name}`).find((point) => contacts.every(({ a, b }) => a === point || b === point));
  if (wiper === undefined) return undefined;
  const joined = positions.filter((one) => one.position === 'closed').flatMap(({ ends }) => ends.filter((end) => end !== wiper)).map(portName);
  return { after: joined.length > 0 ? `closed to ${[...new Set(joined)].join(', ')}` : 'all open' };
}

/** A rail says its voltage against the bodywork; a joint of thin wires says nothing. */
function barLines(way: Way, texts: CarTexts): readonly MarkLine[] {
  const [first] = way.ports;
  if (way.ports.length < 5 || !first) return [];
  return [{ shown: texts.voltage(way.id, `${way.part.name}.${first.name}`, 'chassis') }];
}

function highestSource(parts: Iterable<CarPart>, { between }: CarTexts): number {
  let highest = 0;
  for (const part of parts) {
    const source = sourceOf(part);
    if (source) highest = Math.max(highest, between(`${part.name}.${source.positive}`, `${part.name}.${source.negative}`) ?? 0);
  }
  return highest;
}
