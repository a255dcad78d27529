/**
 * How far a voltage of the car with nothing wrong may lie from what the file's best values give: every quantity of the file that has a tolerance moves the
 * laws of its own part or run a little, and one solution with the transposed factors says what each of those does between two points.
 *
 *     u² = Σ (λᵀ r_q)²,   Aᵀ λ = e_a - e_b,   r_q: by how much the rows are missed when quantity q stands one standard deviation off
 *
 * Source:  JCGM 100:2008 clause 5.1.2 (law of propagation, independent inputs); adjoint network, S. W. Director and R. A. Rohrer (1969)
 * Range:   small tolerances: what moves a relay, a knee or a limit is not followed
 * Checked: core/faults/model-band.test.ts (against whole solves of the car with each quantity moved)
 */
import { isQuantity } from '../build/plain-values.ts';
import type { Car, CarPart } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import { elementsOfParts, runResistance, wireCar } from '../car/wire-car.ts';
import type { Quantity } from '../quantity/quantity.ts';
import { standardDeviation } from '../quantity/spread.ts';
import { readBranch } from '../solve/compile-network.ts';
import type { Element } from '../solve/element.ts';
import type { NearSystem } from '../solve/near-system.ts';

/** One quantity, one standard deviation off: the elements that then have other numbers. */
export interface Deviant { readonly path: string; readonly elements: readonly Element[] }

/** Fields that no element is made from. */
const NOT_ELECTRIC = new Set(['mass', 'at', 'size']);
/** Conductor temperature that runs are wired at [K]. */
const COLD = 293.15;

const deviantsKnown = remembered(function deviantsOf(_: Car): Map<string, readonly Deviant[]> { return new Map(); });

/** By mode, for the life of the car. */
export function deviantsIn(car: Car, mode: string | undefined): readonly Deviant[] {
  const known = deviantsKnown(car);
  let deviants = known.get(mode ?? '');
  if (!deviants) known.set(mode ?? '', (deviants = [...partsOff(car, mode), ...runsOff(car), ...chargeOff(car, mode)].filter(({ elements }) => elements.length > 0)));
  return deviants;
}

function partsOff(car: Car, mode: string | undefined): readonly Deviant[] {
  const state = mode === undefined ? {} : { mode };
  return [...car.parts.values()].flatMap((part) => {
    const fields = part.missing.length > 0 ? undefined : car.build.parts.get(part.name)?.fields;
    if (!fields) return [];
    const whole = elementsOfParts(car, state, [part]);
    return Object.entries(fields).flatMap(([name, value]): Deviant[] => {
      const now = part.fields[name];
      if (NOT_ELECTRIC.has(name) || !isUncertain(value) || typeof now !== 'number') return [];
      const other = withField(part, name, now + standardDeviation(value));
      const moved = elementsOfParts({ ...car, parts: new Map(car.parts).set(part.name, other) }, state, [other]);
      return moved.length !== whole.length ? [] : [{ path: value.path, elements: moved.filter((element, n) => element.id === whole[n]!.id && element.type === whole[n]!.type && element.type !== 'relay' && JSON.stringify(element) !== JSON.stringify(whole[n])) }];
    });
  });
}

function runsOff(car: Car): readonly Deviant[] {
  return [...car.runs.values()].flatMap((run) => {
    const { length, joint_resistance: joint } = car.build.runs.get(run.name)?.fields ?? {};
    const off = (quantity: Quantity, other: typeof run): Deviant => ({ path: quantity.path, elements: [{ type: 'resistor', id: run.name, a: run.from, b: run.to, resistance: runResistance(other, COLD) }] });
    return [
      ...(isUncertain(length) && run.length !== undefined ? [off(length, { ...run, length: run.length + standardDeviation(length) })] : []),
      ...(isUncertain(joint) ? [off(joint, { ...run, jointResistance: run.jointResistance + 2 * standardDeviation(joint) })] : []),
    ];
  });
}

/** State of charge of the cells. */
function chargeOff(car: Car, mode: string | undefined): readonly Deviant[] {
  const charge = car.build.conditions['state_of_charge'];
  if (!isUncertain(charge)) return [];
  const state = mode === undefined ? {} : { mode };
  const whole = wireCar(car, state).network.elements;
  const moved = wireCar(car, { ...state, stateOfCharge: Math.max(0, car.conditions.stateOfCharge - standardDeviation(charge)) }).network.elements;
  return moved.length !== whole.length ? [] : [{ path: charge.path, elements: moved.filter((element, n) => element !== whole[n] && element.type === whole[n]!.type && JSON.stringify(element) !== JSON.stringify(whole[n])) }];
}

const isUncertain = (value: Parameters<typeof isQuantity>[0]): value is Quantity => isQuantity(value) && value.shape !== 'exact' && value.low < value.high;

function withField(part: CarPart, name: string, value: number): CarPart {
  const fields = { ...part.fields, [name]: value };
  return { ...part, fields, now: (settings, conditions) => ({ ...part.now(settings, conditions), fields: fields as never }) };
}

/** @returns standard deviation between two points where the system stands [V]; undefined for a point that the network does not have */
export function modelBand(system: NearSystem, deviants: readonly Deviant[]): (a: string, b: string) => number | undefined {
  const { compiled, numbers } = system;
  const nodeOf = (name: string): number | undefined => compiled.nodeIndexOf.get(name);
  let missed: readonly (readonly (readonly [row: number, by: number])[])[] | undefined;
  const known = new Map<string, number>();
  const right = new Float64Array(system.size), lambda = new Float64Array(system.size);
  return (a, b) => {
    const [one, other] = [nodeOf(a), nodeOf(b)];
    if (one === undefined || other === undefined) return undefined;
    const key = `${a} ${b}`;
    let band = known.get(key);
    if (band === undefined) {
      missed ??= deviants.map(({ elements }) => elements.flatMap((element) => missedBy(element)));
      right.fill(0);
      if (one >= 0) right[one]! += 1;
      if (other >= 0) right[other]! -= 1;
      system.lu.solveTransposed(right, lambda);
      let sum = 0;
      for (const rows of missed) { let moves = 0; for (const [row, by] of rows) moves += lambda[row]! * by; sum += moves * moves; }
      known.set(key, (band = Math.sqrt(sum)));
    }
    return band;
  };

  /** Rows of an element that has other numbers, and by how much the present solution misses them. */
  function missedBy(element: Element): readonly (readonly [number, number])[] {
    const e = compiled.elementIndexOf.get(element.id);
    if (e === undefined || compiled.elementTypes[e] !== element.type) return [];
    const k = compiled.elementBranch[e]!;
    const [from, to] = [compiled.elementA[e]!, compiled.elementB[e]!];
    if (k < 0) {
      if (element.type !== 'resistor') return [];
      const current = (1 / element.resistance - numbers.conductance[compiled.formIndex[e]!]!) * (system.voltageAt(from) - system.voltageAt(to));
      return [...(from >= 0 ? [[from, -current] as const] : []), ...(to >= 0 ? [[to, current] as const] : [])];
    }
    const branches = element.type === 'converter' ? [k, k + 1] : [k];
    const lists = [numbers.resistance, numbers.voltage, numbers.amount, numbers.knee, numbers.efficiency, numbers.idlePower, numbers.powerLimit, numbers.closed];
    const kept = lists.map((list) => branches.map((branch) => list[branch]!));
    readBranch(element, k, numbers);
    const found = branches.map((branch) => [compiled.nodeCount + branch, system.branchResidual(branch)] as const);
    lists.forEach((list, n) => branches.forEach((branch, index) => { list[branch] = kept[n]![index]!; }));
    return found;
  }
}
