/** Low voltage: what feeds it, what hangs behind each fuse, and the signals, in the chosen state; one block a circuit, as many pages as it takes. */
import type { Analysis } from '../../core/analyse.ts';
import type { CarRun } from '../../core/car/car.ts';
import { ownerOf } from '../../core/car/metal-graph.ts';
import type { BlockSpec, RunSpec, Source } from '../diagram/blocks.ts';
import { carTexts, once } from '../diagram/car-texts.ts';
import { diagramModel } from '../diagram/diagram-model.ts';
import type { DiagramModel } from '../diagram/diagram-model.ts';
import type { Side } from '../diagram/graph.ts';
import type { HeadValues } from '../diagram/head-size.ts';
import { makeMark } from '../diagram/make-mark.ts';
import type { GroundSpec } from '../diagram/make-mark.ts';
import { portName } from '../diagram/port-name.ts';
import { groundEnds, groundPoints, groundSpec, waysOf } from '../diagram/ways.ts';
import type { Way, Ways } from '../diagram/ways.ts';
import type { Choices, SheetModel } from '../sheet.ts';
import { isInLine } from '../symbols/size.ts';
import { circuitsOf } from './circuits.ts';
import type { Circuit, Circuits } from './circuits.ts';
import { consumerOf, wayTexts } from './way-texts.ts';

const LEGEND = 'Parts are drawn in pieces, each where its circuit is: a coil here, its contact there. Contacts stand as they are in this state. At a consumer: its voltage and current, and what is lost out and back against the best source. '
  + 'On a run: its name over its size. Thick lines are power, thin broken lines are signals.';

/** of the lettering at a part [mm] */
const COLUMN = 18;

export const lowVoltageModel: SheetModel<DiagramModel> = { name: 'low-voltage', model: modelOf };

async function modelOf(analysis: Analysis, choices: Choices): Promise<DiagramModel> {
  const { car } = analysis;
  const texts = carTexts(analysis, choices);
  const head: HeadValues = { state: texts.state.title, wrong: texts.state.wrong, legend: LEGEND };
  const grounds = groundPoints(car);
  const ways = waysOf(car, (part, port) => port.carries !== 'high_voltage' && part.roles.mains?.earth !== port.name && !grounds.has(`${part.name}.${port.name}`), false);
  const runs = [...car.runs.values()].filter(({ from, to }) => ways.at(from) !== undefined && ways.at(to) !== undefined);
  const toGround = [...car.runs.values()].filter(({ from, to }) => (ways.at(from) !== undefined && grounds.has(to)) || (ways.at(to) !== undefined && grounds.has(from)));
  const groundAt = new Map<Way, CarRun[]>();
  for (const run of toGround) {
    const way = ways.at(groundEnds(run, grounds).point);
    if (way) groundAt.set(way, [...(groundAt.get(way) ?? []), run]);
  }
  const circuits = circuitsOf(car, ways, runs);
  const side = sides(ways, runs, circuits, grounds, toGround);
  const own = wayTexts(analysis, texts);
  const specs = new Map(runs.map((run): [string, RunSpec] => [run.name, { name: run.name, from: run.from, to: run.to, voltage: texts.voltageOf(run), text: texts.runText(run) }]));

  const source: Source = {
    run: (name) => specs.get(name)!, nodeOf: (point) => ways.at(point)!.id, rank: circuits.rank, sideOf: (point) => side.get(point),
    home: once((node) => homeOf(ways.all.get(node)!)),
    mark: (node, ports, references, isHome) => {
      const way = ways.all.get(node)!;
      const { part } = way;
      const symbol = own.symbol(way);
      const title = own.title(way);
      const voltage = way.ports.every(({ carries }) => carries === 'signal') ? 'signal' : 'low';
      return makeMark({
        id: node, part: part.name, path: `parts.${part.name}`, title, label: `${title}, ${part.kind.title.toLowerCase()}`, voltage, symbol,
        lines: isHome || way.ports.length <= 2 ? own.lines(way) : own.lines(way).slice(0, 2), level: isHome ? texts.level(part.name) : undefined, isOff: own.isOff(way), referenceLines: Math.min(way.ports.length > 4 ? 4 : 2, references),
        portCount: way.ports.length, column: isInLine(symbol.name) ? COLUMN : symbol.name === 'bar' ? 8 : 26,
        ports: ports.map(({ id, point, side: at }) => ({ id, point, side: at, name: portName(point), voltage: way.ports.find(({ name }) => name === portName(point))?.carries === 'signal' ? 'signal' : 'low' })),
        grounds: isHome ? groundsOf(way) : [],
      });
    },
  };

  function groundsOf(way: Way): readonly GroundSpec[] {
    return (groundAt.get(way) ?? []).map((run) => groundSpec(run, texts.runText(run), grounds, side.get(groundEnds(run, grounds).point) ?? 'east', false));
  }

  return { ...await diagramModel(car, head, blocksOf(circuits, ways, runs, toGround), source, 1), isEmpty: ways.all.size === 0 };
}

/** Where a piece takes its current from. */
const homeOf = (way: Way): string | undefined => { const consumer = consumerOf(way); return consumer && `${way.part.name}.${consumer.positive}`; };

/** A piece in the line has its end nearer to the source at the left; an end that goes to the bodywork lies opposite the other. */
function sides(ways: Ways, runs: readonly CarRun[], { rank }: Circuits, grounds: ReadonlyMap<string, string>, toGround: readonly CarRun[]): ReadonlyMap<string, Side> {
  const found = new Map<string, Side>();
  const used = new Set(runs.flatMap(({ from, to }) => [from, to]));
  const grounded = new Set(toGround.map((run) => groundEnds(run, grounds).point));
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

const SUPPLY = 'Sources, rails and their fuses';

function blocksOf({ circuits, rank }: Circuits, ways: Ways, runs: readonly CarRun[], toGround: readonly CarRun[]): readonly BlockSpec[] {
  const titles = { supply: SUPPLY, feed: 'Behind the fuses', signal: 'Signals' } as const;
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
  return { pieces: [{ title: '', runs: circuit.runs.filter((run) => !apart.has(run)), startsPage: SUPPLY }, { title: `Fuses on ${largest[0].part.name}`, runs: largest[1] }] };
}

function titleOf(circuit: Circuit, ways: Ways, runs: readonly CarRun[]): string {
  if (circuit.kind === 'supply') return '';
  const own = new Set(circuit.runs);
  const points = [...new Set(runs.filter(({ name }) => own.has(name)).flatMap(({ from, to }) => [from, to]))];
  const loops = points.filter((point) => ways.at(point)!.part.roles.interlock?.flat().includes(portName(point))).length;
  if (circuit.kind === 'feed') return `Behind ${circuit.fuse ?? ''}${loops > 2 ? ': interlock loop' : ''}`;
  const parts = [...new Set(points.map(ownerOf))];
  return loops > 2 ? 'Interlock loop' : `Signals of ${parts.slice(0, 4).join(', ')}${parts.length > 4 ? ' …' : ''}`;
}
