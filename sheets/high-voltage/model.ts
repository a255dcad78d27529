/**
 * High voltage: both poles from the battery to everything that takes from it, the charger and its inlet included, in the chosen state.
 *
 * Both poles are drawn, not one line for both: what matters here (which pole a contactor or fuse sits in, that a service disconnect splits the
 * string in the middle, on which side of a contactor a precharge ends) is not to be seen on a single-line diagram.
 */
import type { Analysis } from '../../core/analyse.ts';
import type { CarPart } from '../../core/car/car.ts';
import { ownerOf } from '../../core/car/metal-graph.ts';
import type { BlockSpec, RunSpec, Source } from '../diagram/blocks.ts';
import { carTexts } from '../diagram/car-texts.ts';
import { columnMark } from '../diagram/column-mark.ts';
import type { SlotSpec } from '../diagram/column-mark.ts';
import { diagramModel } from '../diagram/diagram-model.ts';
import type { DiagramModel } from '../diagram/diagram-model.ts';
import type { Side } from '../diagram/graph.ts';
import type { HeadValues } from '../diagram/head-size.ts';
import { makeMark } from '../diagram/make-mark.ts';
import type { GroundSpec } from '../diagram/make-mark.ts';
import { stepsFrom } from '../diagram/order.ts';
import { portName } from '../diagram/port-name.ts';
import { groundEnds, groundPoints, groundSpec, waysOf } from '../diagram/ways.ts';
import { worstLevel } from '../levels.ts';
import type { Choices, SheetModel } from '../sheet.ts';
import { isInLine } from '../symbols/size.ts';
import { symbolOf } from '../symbols/kind-symbols.ts';
import { inBranches } from './branches.ts';
import { columnsOf } from './columns.ts';
import type { ColumnPlan } from './columns.ts';
import { partTexts } from './part-texts.ts';

const LEGEND = 'Both poles are drawn; contacts stand as they are in this state. Voltages: across the two poles of a part or an open contact; at a bar, against the negative end of the battery. '
  + 'Fault: highest prospective current of a bolted short there. On a run: its name over its size.';

export const highVoltageModel: SheetModel<DiagramModel> = { name: 'high-voltage', model: modelOf };

/** of the lettering at a part [mm] */
const COLUMN = 24;

async function modelOf(analysis: Analysis, choices: Choices): Promise<DiagramModel> {
  const { car } = analysis;
  const texts = carTexts(analysis, choices);
  const head: HeadValues = { state: texts.state.title, wrong: texts.state.wrong, legend: LEGEND };
  const isHere = (part: CarPart, port: { readonly name: string; readonly carries: string }): boolean => part.kind.standsBeside !== true && (port.carries === 'high_voltage' || part.roles.mains?.earth === port.name);
  const ways = waysOf(car, isHere, true);
  const grounds = groundPoints(car);
  const plans = columnsOf(car);
  const columnAt = new Map(plans.flatMap((plan) => plan.places.flatMap(({ parts }) => parts.map(({ name }) => [name, plan] as const))));
  const within = new Set(plans.flatMap(({ places }) => places.flatMap(({ inside, below }) => [...inside, ...below])));

  const runs = [...car.runs.values()].filter(({ from, to, carries }) => carries === 'high_voltage' || ways.at(from) !== undefined || ways.at(to) !== undefined);
  const drawn = runs.filter(({ name, from, to }) => !within.has(name) && ways.at(from) !== undefined && ways.at(to) !== undefined);
  const toGround = runs.filter(({ from, to }) => grounds.has(from) !== grounds.has(to) && (ways.at(from) ?? ways.at(to)) !== undefined);
  const nodeOf = (point: string): string => { const part = ways.at(point)?.part.name ?? ownerOf(point); return columnAt.get(part)?.id ?? part; };
  const nodes = [...new Set([...ways.all.values()].map(({ part }) => columnAt.get(part.name)?.id ?? part.name))];
  const steps = rankNodes(car.parts, plans, nodes, drawn.map(({ from, to }) => ({ a: nodeOf(from), b: nodeOf(to) })));
  const side = sides(analysis, columnAt, drawn, nodeOf, steps);

  const own = partTexts(analysis, texts);
  const specs = new Map(drawn.map((run): [string, RunSpec] => [run.name, { name: run.name, from: run.from, to: run.to, voltage: texts.voltageOf(run), text: texts.runText(run) }]));
  const planById = new Map(plans.map((plan) => [plan.id, plan]));

  const source: Source = {
    run: (name) => specs.get(name)!, nodeOf, rank: (point) => steps.get(nodeOf(point)) ?? 0, sideOf: (point) => side.get(point), home: () => undefined,
    mark: (node, ports, references, isHome) => {
      const plan = planById.get(node);
      const referenceLines = Math.min(3, references);
      if (plan) return columnMark(node, `battery string ${plan.places.flatMap(({ parts }) => parts.map(({ name }) => name)).join(', ')}`, plan.places.map((place): SlotSpec => slotOf(place)), ports, referenceLines);
      const part = car.parts.get(node)!;
      return makeMark({
        id: node, part: node, path: `parts.${node}`, title: node, label: `${node}, ${part.kind.title.toLowerCase()}`, voltage: 'high', symbol: own.symbol(part), lines: own.lines(part), level: texts.level(node), isOff: false, referenceLines,
        portCount: ways.all.get(node)?.ports.length ?? 0, column: isInLine(symbolOf(part.kind.kind).symbol) || symbolOf(part.kind.kind).symbol === 'bar' ? COLUMN : 30,
        ports: ports.map(({ id, point, side: at }) => ({ id, point, side: at, name: portName(point), voltage: part.roles.mains?.earth === portName(point) ? 'low' : 'high' })),
        grounds: isHome ? groundsAt(node) : [], ...(part.roles.dcLink ? { capacitor: [part.roles.dcLink.positive, part.roles.dcLink.negative] } : {}),
      });
    },
  };

  function slotOf(place: ColumnPlan['places'][number]): SlotSpec {
    const [first] = place.parts;
    const worst = worstLevel(place.parts.map(({ name }) => texts.level(name)));
    return {
      parts: place.parts.map(({ name }) => name), names: place.parts.map(({ name }) => ({ text: name, path: `parts.${name}` })), symbol: place.isCells ? { name: 'battery' } : own.symbol(first!), lines: own.placeLines(place),
      ...(worst === undefined ? {} : { level: worst }), top: place.top, bottom: place.bottom, inside: place.inside.map((name) => ({ text: name, path: `runs.${name}` })),
      below: place.below.flatMap((name) => { const run = car.runs.get(name); return run ? [texts.runText(run)] : []; }),
    };
  }
  function groundsAt(node: string): readonly GroundSpec[] {
    return toGround.flatMap((run): GroundSpec[] => {
      const { point } = groundEnds(run, grounds);
      return nodeOf(point) === node ? [groundSpec(run, texts.runText(run), grounds, 'east', car.parts.get(node)?.roles.mains?.earth === portName(point))] : [];
    });
  }

  const connected = new Set(drawn.flatMap(({ from, to }) => [nodeOf(from), nodeOf(to)]));
  const loose = nodes.filter((node) => !connected.has(node));
  const blocks: BlockSpec[] = [
    ...(drawn.length > 0 ? [{ ...inBranches(drawn, nodeOf, new Set(plans.map(({ id }) => id)), endsOf(car.parts, nodes)), startsPage: '' }] : []),
    ...loose.map((node, index): BlockSpec => ({ title: index === 0 ? 'Not joined to anything yet' : '', runs: [], loose: [node] })),
  ];
  return { ...await diagramModel(car, head, blocks, source, Infinity), isEmpty: nodes.length === 0 };
}

/** Steps from the battery; a part between the two poles stands beyond all that it hangs on. */
function rankNodes(parts: Analysis['car']['parts'], plans: readonly ColumnPlan[], nodes: readonly string[], links: readonly { readonly a: string; readonly b: string }[]): ReadonlyMap<string, number> {
  return stepsFrom(plans.map(({ id }) => id), nodes, links, endsOf(parts, nodes));
}

/** What stands between the two poles and is no battery. */
function endsOf(parts: Analysis['car']['parts'], nodes: readonly string[]): ReadonlySet<string> {
  return new Set(nodes.filter((node) => {
    const part = parts.get(node);
    const has = (pole: string): boolean => part?.ports.some((port) => port.carries === 'high_voltage' && port.pole === pole) === true;
    return part !== undefined && part.roles.cells === undefined && has('positive') && has('negative');
  }));
}

/** What stands in a line has the end that is nearer to the battery at the left; the battery's columns have all at the right. */
function sides({ car }: Analysis, columnAt: ReadonlyMap<string, ColumnPlan>, drawn: readonly { readonly from: string; readonly to: string }[], nodeOf: (point: string) => string, steps: ReadonlyMap<string, number>): ReadonlyMap<string, Side> {
  const found = new Map<string, Side>();
  const near = (point: string): number => Math.min(...drawn.flatMap(({ from, to }) => (from === point ? [to] : to === point ? [from] : [])).map((other) => steps.get(nodeOf(other)) ?? 0));
  for (const part of car.parts.values()) {
    if (columnAt.has(part.name)) { for (const { name } of part.ports) found.set(`${part.name}.${name}`, 'east'); continue; }
    const high = part.ports.filter(({ carries }) => carries === 'high_voltage').map(({ name }) => `${part.name}.${name}`);
    const [a, b] = high;
    if (high.length !== 2 || a === undefined || b === undefined || !isInLine(symbolOf(part.kind.kind).symbol)) continue;
    const isTurned = near(b) < near(a);
    found.set(a, isTurned ? 'east' : 'west');
    found.set(b, isTurned ? 'west' : 'east');
  }
  return found;
}
