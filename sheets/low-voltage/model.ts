/** Low voltage: what feeds it, what hangs behind each fuse, and the signals, in the chosen state; one block a circuit, as many pages as it takes. */
import type { Analysis } from '../../core/analyse.ts';
import type { CarRun } from '../../core/car/car.ts';
import { layBlocks } from '../diagram/blocks.ts';
import type { BlockSpec, RunSpec, Source } from '../diagram/blocks.ts';
import { carTexts } from '../diagram/car-texts.ts';
import type { Side } from '../diagram/graph.ts';
import { headHeight } from '../diagram/head-size.ts';
import type { HeadValues } from '../diagram/head-size.ts';
import { makeMark } from '../diagram/make-mark.ts';
import type { GroundSpec } from '../diagram/make-mark.ts';
import { pageWords } from '../diagram/model-text.ts';
import type { PageWords } from '../diagram/model-text.ts';
import { paginate, TITLE } from '../diagram/pages.ts';
import type { DiagramPage } from '../diagram/pages.ts';
import { groundPoints, waysOf } from '../diagram/ways.ts';
import type { Way, Ways } from '../diagram/ways.ts';
import { area } from '../frame/page-size.ts';
import type { Choices, SheetModel } from '../sheet.ts';
import { isInLine } from '../symbols/size.ts';
import { circuitsOf } from './circuits.ts';
import type { Circuit, Circuits } from './circuits.ts';
import { wayTexts } from './way-texts.ts';

export interface LowVoltageModel {
  readonly head: HeadValues;
  readonly pages: readonly DiagramPage[];
  readonly words: readonly PageWords[];
  readonly isEmpty: boolean;
}

const LEGEND = 'Parts are drawn in pieces, each where its circuit is: a coil here, its contact there. Contacts stand as they are in this state. At a consumer: its voltage and current, and what is lost out and back against the best source. '
  + 'On a run: its name over its size. Thick lines are power, thin broken lines are signals.';

/** of the lettering at a part [mm] */
const COLUMN = 18;

export const lowVoltageModel: SheetModel<LowVoltageModel> = { name: 'low-voltage', model: modelOf };

async function modelOf(analysis: Analysis, choices: Choices): Promise<LowVoltageModel> {
  const { car } = analysis;
  const texts = carTexts(analysis, choices);
  const head: HeadValues = { state: texts.state.title, wrong: texts.state.wrong, legend: LEGEND };
  const grounds = groundPoints(car);
  const ways = waysOf(car, (part, port) => port.carries !== 'high_voltage' && part.roles.mains?.earth !== port.name && !grounds.has(`${part.name}.${port.name}`), false);
  const runs = [...car.runs.values()].filter(({ from, to }) => ways.at(from) !== undefined && ways.at(to) !== undefined);
  const toGround = [...car.runs.values()].filter(({ from, to }) => (ways.at(from) !== undefined && grounds.has(to)) || (ways.at(to) !== undefined && grounds.has(from)));
  const groundAt = new Map<Way, CarRun[]>();
  for (const run of toGround) {
    const way = ways.at(grounds.has(run.to) ? run.from : run.to);
    if (way) groundAt.set(way, [...(groundAt.get(way) ?? []), run]);
  }
  const circuits = circuitsOf(car, ways, runs);
  const side = sides(ways, runs, circuits, grounds, toGround);
  const own = wayTexts(analysis, texts);
  const specs = new Map(runs.map((run): [string, RunSpec] => [run.name, { name: run.name, from: run.from, to: run.to, voltage: texts.voltageOf(run), text: texts.runText(run) }]));

  const source: Source = {
    run: (name) => specs.get(name)!, nodeOf: (point) => ways.at(point)!.id, rank: circuits.rank, sideOf: (point) => side.get(point),
    home: (node) => homeOf(ways.all.get(node)!),
    mark: (node, ports, references, isHome) => {
      const way = ways.all.get(node)!;
      const { part } = way;
      const symbol = own.symbol(way);
      const isSignal = way.ports.every(({ carries }) => carries === 'signal');
      const voltage = isSignal ? 'signal' : 'low';
      return makeMark({
        id: node, part: part.name, path: `parts.${part.name}`, title: own.title(way), label: `${own.title(way)}, ${part.kind.title.toLowerCase()}`, voltage, symbol,
        lines: isHome || way.ports.length <= 2 ? own.lines(way) : own.lines(way).slice(0, 2), level: isHome ? texts.level(part.name) : undefined, isOff: own.isOff(way), referenceLines: Math.min(way.ports.length > 4 ? 4 : 2, references),
        portCount: way.ports.length, column: isInLine(symbol.name) ? COLUMN : symbol.name === 'bar' ? 8 : 26,
        ports: ports.map(({ id, point, side: at }) => ({ id, point, side: at, name: portName(point), voltage: way.ports.find(({ name }) => name === portName(point))?.carries === 'signal' ? 'signal' : 'low' })),
        grounds: isHome ? groundsOf(way) : [],
      });
    },
  };

  function groundsOf(way: Way): readonly GroundSpec[] {
    return (groundAt.get(way) ?? []).map((run): GroundSpec => {
      const [point, stud] = grounds.has(run.to) ? [run.from, run.to] : [run.to, run.from];
      const { level, size } = texts.runText(run);
      return { run: run.name, ...(level === undefined ? {} : { level }), stud: grounds.get(stud)!, studPoint: stud, size, point, name: portName(point), side: side.get(point) ?? 'east', isEarth: false };
    });
  }

  const top = headHeight(head);
  const pages = paginate(await layBlocks(blocksOf(circuits, ways, runs, toGround), source, { width: area.width, height: area.height - top - TITLE }), top, 1);
  return { head, pages, words: pages.map((page) => pageWords(page, car)), isEmpty: ways.all.size === 0 };
}

/** Where a piece takes its current from. */
const homeOf = ({ part, ports }: Way): string | undefined => { const consumer = part.roles.consumers?.find(({ positive }) => ports.some(({ name }) => name === positive)); return consumer && `${part.name}.${consumer.positive}`; };

const portName = (point: string): string => point.slice(point.indexOf('.') + 1);

/** A piece in the line has its end nearer to the source at the left; an end that goes to the bodywork lies opposite the other. */
function sides(ways: Ways, runs: readonly CarRun[], { rank }: Circuits, grounds: ReadonlyMap<string, string>, toGround: readonly CarRun[]): ReadonlyMap<string, Side> {
  const found = new Map<string, Side>();
  const used = new Set(runs.flatMap(({ from, to }) => [from, to]));
  const grounded = new Set(toGround.flatMap(({ from, to }) => (grounds.has(from) ? [to] : [from])));
  for (const { part, ports } of ways.all.values()) {
    if (ports.length !== 2) continue;
    const [a, b] = ports.map(({ name }) => `${part.name}.${name}`) as [string, string];
    const isSource = [part.roles.lowVoltageBattery, part.roles.lowVoltageSupply].some((role) => role !== undefined && [a, b].includes(`${part.name}.${role.positive}`));
    const order = isSource ? [b, a] : grounded.has(a) && used.has(b) && !used.has(a) ? [b, a] : grounded.has(b) && used.has(a) && !used.has(b) ? [a, b] : rank(b) < rank(a) ? [b, a] : [a, b];
    found.set(order[0]!, 'west');
    found.set(order[1]!, 'east');
  }
  return found;
}

function blocksOf({ circuits, rank }: Circuits, ways: Ways, runs: readonly CarRun[], toGround: readonly CarRun[]): readonly BlockSpec[] {
  const titles = { supply: 'Sources, rails and their fuses', feed: 'Behind the fuses', signal: 'Signals' } as const;
  const order = ['supply', 'feed', 'signal'] as const;
  const blocks = order.flatMap((kind) => circuits.filter((circuit) => circuit.kind === kind).map((circuit, index): BlockSpec => ({
    title: titleOf(circuit, ways, runs), runs: circuit.runs, ...(kind === 'supply' ? railApart(circuit, ways, runs, rank) : {}), ...(index === 0 ? { startsPage: titles[kind] } : {}),
  })));
  const joined = new Set(runs.flatMap(({ from, to }) => [ways.at(from)!.id, ways.at(to)!.id]));
  const grounded = new Set(toGround.flatMap(({ from, to }) => { const way = ways.at(from) ?? ways.at(to); return way ? [way.id] : []; }));
  // a piece that nothing is joined to is worth a place only when no other piece of its part has one
  const seen = new Set([...joined].map((id) => ways.all.get(id)!.part.name));
  const loose = [...ways.all.values()].filter(({ id, part }) => !joined.has(id) && (grounded.has(id) || (!seen.has(part.name) && part.ports.every(({ carries }) => carries !== 'high_voltage'))));
  return [...blocks, ...loose.map((way, index): BlockSpec => ({ title: index === 0 ? (grounded.has(way.id) ? 'To the bodywork alone' : 'Not joined to anything yet') : '', runs: [], loose: [way.id], ...(blocks.length === 0 && index === 0 ? { startsPage: '' } : {}) }))];
}

/** Where the sources and all rails are too much for a page, the rail with most fuses goes apart. */
function railApart(circuit: Circuit, ways: Ways, runs: readonly CarRun[], rank: Circuits['rank']): Pick<BlockSpec, 'pieces'> {
  const own = new Set(circuit.runs);
  const byRail = new Map<Way, string[]>();
  for (const { name, from, to } of runs) {
    if (!own.has(name)) continue;
    const [near, far] = rank(from) <= rank(to) ? [from, to] : [to, from];
    if (ways.at(far)!.part.roles.protection === undefined) continue;
    const rail = ways.at(near)!;
    byRail.set(rail, [...(byRail.get(rail) ?? []), name]);
  }
  const [largest] = [...byRail].sort(([, a], [, b]) => b.length - a.length);
  if (!largest || largest[1].length < 3 || largest[1].length === circuit.runs.length) return {};
  const apart = new Set(largest[1]);
  const title = 'Sources, rails and their fuses';
  return { pieces: [{ title: '', runs: circuit.runs.filter((run) => !apart.has(run)), startsPage: title }, { title: `Fuses on ${largest[0].part.name}`, runs: largest[1] }] };
}

function titleOf(circuit: Circuit, ways: Ways, runs: readonly CarRun[]): string {
  const parts = [...new Set(runs.filter(({ name }) => circuit.runs.includes(name)).flatMap(({ from, to }) => [from, to].map((point) => ways.at(point)!.part)))];
  const loops = new Set(runs.filter(({ name }) => circuit.runs.includes(name)).flatMap(({ from, to }) => [from, to]).filter((point) => ways.at(point)!.part.roles.interlock?.flat().includes(portName(point)))).size;
  if (circuit.kind === 'supply') return '';
  if (circuit.kind === 'feed') return `Behind ${circuit.fuse ?? ''}${loops > 2 ? ': interlock loop' : ''}`;
  return loops > 2 ? 'Interlock loop' : `Signals of ${parts.map(({ name }) => name).slice(0, 4).join(', ')}${parts.length > 4 ? ' …' : ''}`;
}
