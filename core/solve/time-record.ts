import { Law } from './compile-network.ts';
import type { NetworkSystem } from './network-system.ts';
import { rootBetween } from './roots.ts';
import type { HappenedEvent, TimeRequest, TimeSolved } from './time-result.ts';
import { END_WEIGHT, GAMMA, MIDDLE_WEIGHT, START_WEIGHT } from './time-step.ts';
import type { TimeStep } from './time-step.ts';

interface Probe { readonly name: string; readonly values: number[]; readonly read: (x: Float64Array) => number }
interface Integral { readonly id: string; readonly current: (x: Float64Array) => number; readonly voltage: (x: Float64Array) => number; charge: number; energy: number; square: number }

/** Watches the steps of a solve in time: samples, integrals, the stop condition and the balances. */
export class TimeRecord {
  /** the stop condition was met */
  ended = false;
  readonly #system: NetworkSystem;
  readonly #step: TimeStep;
  readonly #request: TimeRequest;
  readonly #times: number[] = [];
  readonly #wanted: Float64Array | undefined;
  readonly #nodes: Probe[];
  readonly #elements: Probe[];
  readonly #integrals: Integral[];
  readonly #pinOf: Int32Array;
  readonly #startStored: Float64Array;
  readonly #startEnergy: number;
  readonly #charge: Float64Array;
  readonly #sums: Float64Array;
  readonly #until: ((x: Float64Array) => number) | undefined;
  #energy = 0;
  #passed = 0;
  #most = 0;
  #current = 0;
  #next = 0;
  #endedAt = 0;
  #reachedAt: number | undefined;

  constructor(system: NetworkSystem, step: TimeStep, request: TimeRequest) {
    this.#system = system;
    this.#step = step;
    this.#request = request;
    const { compiled } = system;
    this.#pinOf = new Int32Array(compiled.nodeCount).fill(-1);
    this.#sums = new Float64Array(compiled.nodeCount);
    const node = (name: string): number => {
      const n = compiled.nodeIndexOf.get(name);
      if (n === undefined) throw new Error(`the network has no node ${name}`);
      return n;
    };
    const at = (x: Float64Array, n: number): number => (n < 0 ? 0 : x[n]! - (this.#pinOf[n]! < 0 ? 0 : x[this.#pinOf[n]!]!));
    this.#nodes = request.probes.nodes.map((name) => { const n = node(name); return { name, values: [], read: (x) => at(x, n) }; });
    this.#elements = request.probes.elements.map((name) => ({ name, values: [], read: this.#currentReader(name) }));
    this.#integrals = request.probes.elements.map((id) => ({ id, current: this.#currentReader(id), voltage: this.#voltageReader(id), charge: 0, energy: 0, square: 0 }));
    this.#wanted = wantedTimes(request);
    this.#startStored = Float64Array.from(step.stores, (_, n) => step.stored(n));
    this.#startEnergy = this.#most = step.storedEnergy();
    this.#charge = new Float64Array(step.stores.length);
    if (request.until !== undefined) {
      const a = node(request.until.a), b = node(request.until.b), { reaches, direction } = request.until;
      const sign = direction === 'rising' ? 1 : -1;
      this.#until = (x) => sign * (at(x, a) - at(x, b) - reaches);
    }
    this.#findPins();
    if (this.#wanted === undefined) this.#sample(0, 1, 0, 0);
    else if (this.#wanted[0] === 0) { this.#sample(0, 1, 0, 0); this.#next = 1; }
    if (this.#until !== undefined && this.#until(step.start) >= 0) { this.ended = true; this.#reachedAt = 0; }
  }

  /** Takes in a step that is about to be taken. `jump`: its start lies before a jump, so only its end counts. */
  step(time: number, length: number, jump: boolean): void {
    const step = this.#step;
    if (step.cornersMoved || jump) this.#findPins();
    let end = time + length;
    if (this.#until !== undefined && this.#until(step.end) >= 0) {
      const f = (share: number): number => this.#until!(this.#between(share));
      const root = jump ? undefined : rootBetween(f, 0, 1, 1e-12);
      end = time + length * (root?.outcome === 'found' ? root.at : jump ? 0 : 1);
      this.ended = true;
      this.#reachedAt = end;
    }
    const [w0, w1, w2] = jump ? [0, 0, 1] : [START_WEIGHT, MIDDLE_WEIGHT, END_WEIGHT];
    this.#addIntegrals(length, w0, w1, w2);
    this.#checkCurrents();
    this.#endedAt = end;
    if (this.#wanted === undefined) { const share = (end - time) / length; if (share >= 1) this.#sample(end, 0, 0, 1); else this.#sampleAt(end, share, jump); return; }
    const slack = 1e-9 * this.#request.duration;
    while (this.#next < this.#wanted.length && this.#wanted[this.#next]! <= end + slack) {
      const wanted = this.#wanted[this.#next++]!;
      this.#sampleAt(wanted, Math.min(1, Math.max(0, (wanted - time) / length)), jump);
    }
    // a run cut short reports its last moment too
    if (this.ended && this.#times[this.#times.length - 1] !== end) this.#sampleAt(end, (end - time) / length, jump);
  }

  result(events: readonly HappenedEvent[], steps: number): TimeSolved {
    const step = this.#step, system = this.#system, { compiled, numbers } = system;
    let charge = 0, capacitor: string | undefined;
    step.stores.forEach((k, n) => {
      if (compiled.law[k] !== Law.capacitor) return;
      const c = numbers.amount[k]!;
      const off = Math.abs(this.#charge[n]! - c * (step.stored(n) - this.#startStored[n]!)) / (c * Math.max(step.largest(n), 1e-3));
      if (off > charge) { charge = off; capacitor = compiled.elementIds[compiled.branchElement[k]!]; }
    });
    const scale = Math.max(this.#most, this.#passed, 1e-12);
    const series = (probes: readonly Probe[]): Record<string, Float64Array> => Object.fromEntries(probes.map(({ name, values }) => [name, Float64Array.from(values)]));
    return {
      outcome: 'solved', times: Float64Array.from(this.#times), voltages: series(this.#nodes), currents: series(this.#elements), events,
      integrals: Object.fromEntries(this.#integrals.map(({ id, charge: q, energy, square }) => [id, { charge: q, energy, square }])),
      reachedAt: this.#reachedAt, endedAt: this.#endedAt, steps,
      balance: { charge, capacitor, energy: Math.abs(this.#energy - (step.storedEnergy() - this.#startEnergy)) / scale, current: this.#current },
    };
  }

  #sampleAt(time: number, share: number, jump: boolean): void {
    if (jump) { this.#sample(time, 0, 0, 1); return; }
    this.#sample(time, ...quadratic(share));
  }

  #sample(time: number, w0: number, w1: number, w2: number): void {
    const { start, middle, end } = this.#step;
    this.#times.push(time);
    for (const probes of [this.#nodes, this.#elements]) {
      for (const { values, read } of probes) values.push((w0 === 0 ? 0 : w0 * read(start)) + (w1 === 0 ? 0 : w1 * read(middle)) + (w2 === 0 ? 0 : w2 * read(end)));
    }
  }

  #between(share: number): Float64Array {
    const { start, middle, end } = this.#step;
    const [w0, w1, w2] = quadratic(share);
    return start.map((x, n) => w0 * x + w1 * middle[n]! + w2 * end[n]!);
  }

  #addIntegrals(length: number, w0: number, w1: number, w2: number): void {
    const { start, middle, end, stores } = this.#step;
    const { compiled } = this.#system;
    const points = [[start, w0], [middle, w1], [end, w2]] as const;
    for (const [x, weight] of points) {
      if (weight === 0) continue;
      const w = weight * length;
      for (const integral of this.#integrals) {
        const i = integral.current(x);
        integral.charge += w * i;
        integral.energy += w * i * integral.voltage(x);
        integral.square += w * i * i;
      }
      for (let n = 0; n < stores.length; n++) {
        const k = stores[n]!;
        const i = x[compiled.nodeCount + k]!;
        const a = compiled.branchA[k]!, b = compiled.branchB[k]!;
        let v = (a < 0 ? 0 : x[a]!) - (b < 0 ? 0 : x[b]!);
        if (compiled.law[k] === Law.inductor) v -= this.#system.numbers.resistance[k]! * i;
        this.#charge[n]! += w * i;
        this.#energy += w * v * i;
        this.#passed += w * Math.abs(v * i);
      }
    }
    this.#most = Math.max(this.#most, this.#step.storedEnergy());
  }

  /** Kirchhoff's current law at the end of the step, from the currents alone. */
  #checkCurrents(): void {
    const { compiled, numbers } = this.#system;
    const x = this.#step.end, sums = this.#sums;
    sums.fill(0);
    const add = (a: number, b: number, i: number): void => { if (a >= 0) sums[a]! -= i; if (b >= 0) sums[b]! += i; };
    for (let k = 0; k < compiled.branchCount; k++) add(compiled.branchA[k]!, compiled.branchB[k]!, x[compiled.nodeCount + k]!);
    compiled.conductanceElements.forEach((e, n) => {
      const a = compiled.elementA[e]!, b = compiled.elementB[e]!;
      add(a, b, numbers.conductance[n]! * ((a < 0 ? 0 : x[a]!) - (b < 0 ? 0 : x[b]!)));
    });
    compiled.injectionElements.forEach((e, n) => { add(compiled.elementA[e]!, compiled.elementB[e]!, numbers.injected[n]!); });
    for (const sum of sums) this.#current = Math.max(this.#current, Math.abs(sum));
  }

  /** Loose islands are reported against their lowest negative terminal of a source, as at rest. */
  #findPins(): void {
    const { compiled, joined } = this.#system;
    const x = this.#step.end;
    const pins = new Map<number, { node: number; bySource: boolean }>();
    for (let n = 0; n < compiled.nodeCount; n++) if (!joined.tiedToReference(n) && !pins.has(joined.root(n))) pins.set(joined.root(n), { node: n, bySource: false });
    if (pins.size > 0) {
      for (let e = 0; e < compiled.elementIds.length; e++) {
        const b = compiled.elementB[e]!;
        if (compiled.elementTypes[e] !== 'source' || b < 0 || joined.tiedToReference(b)) continue;
        const pin = pins.get(joined.root(b))!;
        if (!pin.bySource || x[b]! < x[pin.node]! - 1e-6) pins.set(joined.root(b), { node: b, bySource: true });
      }
    }
    for (let n = 0; n < compiled.nodeCount; n++) this.#pinOf[n] = joined.tiedToReference(n) ? -1 : pins.get(joined.root(n))!.node;
  }

  #ends(id: string): { branch: number; a: number; b: number; sign: number; element: number } {
    const { compiled } = this.#system;
    const isInput = !compiled.elementIndexOf.has(id) && id.endsWith(':in');
    const element = compiled.elementIndexOf.get(isInput ? id.slice(0, -3) : id);
    if (element === undefined) throw new Error(`the network has no element ${id}`);
    const first = compiled.elementBranch[element]!;
    if (isInput) return { branch: first + 1, a: compiled.branchA[first + 1]!, b: compiled.branchB[first + 1]!, sign: 1, element };
    return { branch: first, a: compiled.elementA[element]!, b: compiled.elementB[element]!, sign: compiled.elementTypes[element] === 'converter' ? -1 : 1, element };
  }

  #voltageReader(id: string): (x: Float64Array) => number {
    const { a, b } = this.#ends(id);
    return (x) => (a < 0 ? 0 : x[a]!) - (b < 0 ? 0 : x[b]!);
  }

  #currentReader(id: string): (x: Float64Array) => number {
    const { compiled, numbers } = this.#system;
    const { branch, sign, element } = this.#ends(id);
    if (branch >= 0) { const row = compiled.nodeCount + branch; return (x) => sign * x[row]!; }
    const injection = compiled.injectionElements.indexOf(element);
    if (injection >= 0) return () => numbers.injected[injection]!;
    const conductance = compiled.conductanceElements.indexOf(element);
    const voltage = this.#voltageReader(id);
    return (x) => numbers.conductance[conductance]! * voltage(x);
  }
}

/** Weights of start, middle and end at a share of the step. */
function quadratic(share: number): [number, number, number] {
  const w1 = (share * (1 - share)) / (GAMMA * (1 - GAMMA));
  const w2 = (share * (share - GAMMA)) / (1 - GAMMA);
  return [1 - w1 - w2, w1, w2];
}

function wantedTimes({ samples, every, duration }: TimeRequest): Float64Array | undefined {
  if (samples !== undefined) {
    const wanted = Float64Array.from(samples);
    for (let n = 0; n < wanted.length; n++) if (!(wanted[n]! >= 0 && wanted[n]! <= duration * (1 + 1e-12) && (n === 0 || wanted[n]! >= wanted[n - 1]!))) throw new Error('sample times must ascend from 0 to the duration');
    return wanted;
  }
  if (every === undefined) return undefined;
  if (!(every > 0)) throw new Error(`samples need a spacing > 0, got ${every}`);
  return Float64Array.from({ length: Math.floor(duration / every * (1 + 1e-12)) + 1 }, (_, n) => Math.min(n * every, duration));
}
