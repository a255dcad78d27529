/**
 * The pieces of which a part is drawn. On the low-voltage sheets a part falls into what hangs together inside it: a relay is a coil here
 * and a contact there, a plug is so many pins (the detached way of drawing circuits, IEC 61082-1). On the high-voltage sheet it stays whole.
 */
import type { Car, CarPart } from '../../core/car/car.ts';
import { metalOf, ownerOf, unionFind } from '../../core/car/metal-graph.ts';
import type { Port } from '../../core/part/kind.ts';
import type { Element } from '../../core/solve/element.ts';
import { REFERENCE_NODE } from '../../core/solve/element.ts';
import type { Side } from './graph.ts';
import type { GroundSpec } from './make-mark.ts';
import type { WireText } from './mark.ts';
import { portName } from './port-name.ts';

export interface Way {
  /** `K1` when the part is one piece, else `K1:coil_a` after its first port */
  readonly id: string;
  readonly part: CarPart;
  readonly ports: readonly Port[];
  readonly elements: readonly Element[];
}

export interface Ways {
  readonly all: ReadonlyMap<string, Way>;
  readonly at: (point: string) => Way | undefined;
}

/** Both ends of what an element joins; a converter joins each of its sides. */
export function endsOf(element: Element): readonly (readonly [string, string])[] {
  return element.type === 'converter' ? [[element.input[0], element.input[1]], [element.output[0], element.output[1]]] : [[element.a, element.b]];
}

/** @param isTaken  the ports that belong on the sheet */
export function waysOf(car: Car, isTaken: (part: CarPart, port: Port) => boolean, isWhole: boolean): Ways {
  const byOwner = new Map<string, Element[]>();
  for (const element of metalOf(car).elements) {
    const owner = ownerOf(element.id);
    const list = byOwner.get(owner);
    if (list) list.push(element);
    else byOwner.set(owner, [element]);
  }
  const all = new Map<string, Way>();
  const at = new Map<string, Way>();
  for (const part of car.parts.values()) {
    const ports = part.ports.filter((port) => isTaken(part, port));
    if (ports.length === 0) continue;
    const elements = byOwner.get(part.name) ?? [];
    const groups = isWhole || part.missing.length > 0 ? [ports] : together(part, ports, elements);
    for (const group of groups) {
      const points = new Set(group.map(({ name }) => `${part.name}.${name}`));
      const id = groups.length === 1 ? part.name : `${part.name}:${group[0]!.name}`;
      const way: Way = { id, part, ports: group, elements: isWhole ? elements : elements.filter((element) => endsOf(element).some((ends) => ends.some((end) => points.has(end)))) };
      all.set(id, way);
      for (const point of points) at.set(point, way);
    }
  }
  return { all, at: (point) => at.get(point) };
}

function together(part: CarPart, ports: readonly Port[], elements: readonly Element[]): readonly (readonly Port[])[] {
  const joined = unionFind();
  for (const element of elements) for (const [a, b] of endsOf(element)) if (a !== REFERENCE_NODE && b !== REFERENCE_NODE) joined.join(a, b);
  const groups = new Map<string, Port[]>();
  for (const port of ports) {
    const key = joined.find(`${part.name}.${port.name}`);
    const group = groups.get(key);
    if (group) group.push(port);
    else groups.set(key, [port]);
  }
  return [...groups.values()];
}

/** Parts whose every port is bolted to the bodywork: what ends there is drawn as the sign of the chassis. */
export function groundPoints(car: Car): ReadonlyMap<string, string> {
  const { linksAt } = metalOf(car);
  const found = new Map<string, string>();
  for (const part of car.parts.values()) {
    const points = part.ports.map(({ name }) => `${part.name}.${name}`);
    if (points.length === 0) continue;
    if (points.every((point) => linksAt(point).some(({ id, a, b }) => ownerOf(id) === part.name && id !== part.name && (a === REFERENCE_NODE || b === REFERENCE_NODE)))) for (const point of points) found.set(point, part.name);
  }
  return found;
}

interface Run { readonly from: string; readonly to: string }

/** The two ends of a run of which one is bolted to the bodywork. */
export const groundEnds = ({ from, to }: Run, grounds: ReadonlyMap<string, string>): { readonly point: string; readonly studPoint: string } => (grounds.has(to) ? { point: from, studPoint: to } : { point: to, studPoint: from });

/** Such a run as it is drawn at the part it leaves from. */
export function groundSpec(run: Run, text: WireText, grounds: ReadonlyMap<string, string>, side: Side, isEarth: boolean): GroundSpec {
  const { point, studPoint } = groundEnds(run, grounds);
  return { ...text, stud: grounds.get(studPoint)!, studPoint, point, name: portName(point), side, isEarth };
}
