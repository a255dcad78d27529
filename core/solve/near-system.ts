/**
 * A solved system that can be asked for its neighbours: x = x0 + Z c, where each column of Z is what one row, or one further path between two
 * nodes, does to the whole, and c is found so that every changed row holds (Woodbury, in the rows that change and no others).
 *
 * What differs from the solution is a handful of rows: faults, contacts that move, corners that are crossed, loads of constant power whose voltage
 * has moved. `settleRounds` works on it as on any system; only its step is this one.
 * Needs: every node is tied to the reference by resistors above `BRANCH_BELOW` of which no change takes one away; then no island ever comes loose.
 * Source:  M. A. Woodbury, Inverting modified matrices (1950)
 * Checked: core/solve/near-system.test.ts (against the full solve)
 */
import { Position } from './branch-law.ts';
import type { Compiled } from './compile-network.ts';
import { Law } from './compile-network.ts';
import { ColumnStore } from './column-store.ts';
import type { Column } from './column-store.ts';
import type { Network } from './element.ts';
import { eliminate } from './eliminate.ts';
import type { EliminationOrder } from './markowitz-order.ts';
import { NetworkSystem } from './network-system.ts';
import { sidesOf } from './sides.ts';

/** A further path between two nodes; a resistor that changes is one too, of the difference. */
export interface FurtherPath { readonly a: number; readonly b: number; /** [ohm]; < 0: a path that is taken away */ readonly resistance: number; /** [A] a to b, once solved */ current: number }

/** A curved law is kept to this, relative to its current. */
const LAW_KEPT = 1e-8;
/** A load whose voltage has moved by this share is followed. */
const FAR = 1e-4;
/** A load that starves in the solution, at this share more or less than there, has no other voltage either. */
const AS_BEFORE = 0.02;
/** A little more than half: the last steps before it is seen are the slow ones. */
const HALF = 0.53;
/** Behind more resistance than its own slope a step leads upwards, away from any answer: nearly twice the voltage when next to nothing feeds it. */
const DOUBLE = 1.8;
/** Rows that may differ at once; more are solved in full. */
const MOST_ROWS = 80;

export class NearSystem extends NetworkSystem {
  /** relays stay as they are whatever their coils say */
  isFrozen = false;
  readonly further: FurtherPath[] = [];
  /** by branch: its row says that nothing flows */
  readonly opened: Uint8Array;
  /** by branch: the contact does not follow its coil */
  readonly held: Uint8Array;
  /** by branch: numbers or hold are not those of the solution */
  readonly touched: Uint8Array;
  #base: { readonly x: Float64Array; readonly positions: Uint8Array; readonly largestVoltage: number; readonly largestCurrent: number } | undefined;
  /** places of x that decide what moves: at corners, coils and whatever was asked for; the rest follows at the end */
  #looked: Int32Array;
  /** by place in x + 1: place in `looked` */
  readonly #placeOf: Int32Array;
  readonly #rows: number[] = [];
  /** of the rows at hand, further paths, then the solution */
  readonly #columns: Column[] = [];
  /** by column, how much of it */
  #much: Float64Array = new Float64Array(0);
  readonly #followed: Uint8Array;
  #store: ColumnStore;
  readonly #isLasting: Uint8Array;
  #sides: ReturnType<typeof sidesOf> | undefined;
  readonly #dense = new Float64Array(MOST_ROWS * (MOST_ROWS + 1));
  readonly #next: Float64Array;
  readonly #noneOneWay: Uint8Array;
  readonly #start: Uint8Array;
  /** positions at the step before */
  readonly #before: Uint8Array;

  constructor(network: Network, compiled?: Compiled, order?: EliminationOrder) {
    super(network, compiled, order);
    const { branchCount, coils } = this.compiled;
    this.opened = new Uint8Array(branchCount);
    this.held = new Uint8Array(branchCount);
    this.touched = new Uint8Array(branchCount);
    this.#followed = new Uint8Array(branchCount);
    this.#start = new Uint8Array(branchCount);
    this.#before = new Uint8Array(branchCount);
    this.#isLasting = new Uint8Array(branchCount);
    for (const k of [...this.corners, ...coils.flatMap(({ contacts }) => contacts.map(({ branch }) => branch))]) this.#isLasting[k] = 1;
    this.#looked = new Int32Array(0);
    this.#placeOf = new Int32Array(this.size + 1);
    this.#store = new ColumnStore(this.lu, this.size, this.#looked, 2 * MOST_ROWS);
    this.#next = new Float64Array(this.size);
    this.#noneOneWay = new Uint8Array(branchCount + this.compiled.conductanceElements.length + this.compiled.injectionElements.length);
  }

  /**
   * From here on steps are those of a neighbour of where the system stands now, settled.
   * @param alsoLooked  places of x that are asked for before `complete`
   * @returns whether it can have neighbours: factors are good, no ideal loop, and every node is tied
   */
  stand(alsoLooked: readonly number[]): boolean {
    if (this.loops.redundant.length > 0 || this.factorHere() >= 0) return false;
    for (let n = 0; n < this.compiled.nodeCount; n++) if (!this.joined.tiedToReference(n)) return false;
    this.#base = { x: this.x.slice(), positions: this.positions.slice(), largestVoltage: this.largestVoltage, largestCurrent: this.largestCurrent };
    this.#before.set(this.positions);
    this.#sides = sidesOf(this.compiled, this.x);
    const { nodeCount, branchA, branchB, coils } = this.compiled;
    const places = new Set<number>(alsoLooked);
    for (let k = 0; k < this.compiled.branchCount; k++) if (this.#isLasting[k] === 1) for (const place of [branchA[k]!, branchB[k]!, nodeCount + k]) places.add(place);
    for (const { coil } of coils) for (const node of coil) places.add(node);
    places.delete(-1);
    this.#looked = Int32Array.from(places);
    this.#store = new ColumnStore(this.lu, this.size, this.#looked, 2 * MOST_ROWS);
    this.#placeOf.fill(-1);
    this.#looked.forEach((n, place) => { this.#placeOf[n + 1] = place; });
    return true;
  }

  /** All unknowns where the last step led; until then only those at corners, coils and what `stand` was told are right. */
  complete(): void {
    const { x, size } = this;
    x.set(this.#base!.x);
    this.#columns.forEach(({ whole }, j) => {
      const c = this.#much[j];
      if (c === undefined || c === 0) return;
      for (let n = 0; n < size; n++) x[n]! += c * whole[n]!;
    });
  }

  /** Where the system stands with the changes made and nothing followed yet: `restart` goes back there. */
  keepStart(): void { this.#start.set(this.positions); }
  restart(): void {
    const { positions } = this.#base!;
    this.x.set(this.#base!.x);
    this.#followed.fill(0);
    // what was opened since stays so
    for (let k = 0; k < positions.length; k++) if (this.touched[k] === 0) this.positions[k] = positions[k]!; else if (this.held[k] === 0 && this.opened[k] === 0) this.positions[k] = this.#start[k]!;
  }

  /** Back to the solution. Numbers that were touched are put back by whoever touched them. */
  stepBack(): void {
    const base = this.#base!;
    this.x.set(base.x);
    this.positions.set(base.positions);
    this.opened.fill(0);
    this.held.fill(0);
    this.touched.fill(0);
    this.#followed.fill(0);
    this.further.length = 0;
    this.#before.set(base.positions);
    this.isFrozen = false;
    this.damping = 0;
  }

  /** Branches that were touched. */
  touchedRows(): readonly number[] {
    const rows: number[] = [];
    for (let k = 0; k < this.touched.length; k++) if (this.touched[k] === 1) rows.push(k);
    return rows;
  }

  /** [ohm] what a small current between two nodes meets at the solution */
  resistanceBetween(a: number, b: number): number {
    const { whole: z } = this.#pathColumn(a, b);
    return valueAt(z, a) - valueAt(z, b);
  }

  override step(keepFactors = false): number {
    if (this.#base === undefined) return super.step(keepFactors);
    if (this.damping !== 0) return 0;
    this.work.steps++;
    this.work.factored++;
    const risen = this.#risen();
    for (const k of risen) this.positions[k] = Position.waiting;
    for (let isOpen = risen.length > 0; ; isOpen = false) {
      const count = this.#collect();
      if (count > MOST_ROWS) return 0;
      const much = this.#solveRows(count);
      if (much === undefined) return 0;
      if (isOpen) {
        this.#moveTo(count, much);
        for (const k of risen) this.positions[k] = Position.regulating;
        continue;
      }
      if (this.#starve(count, much)) continue;
      this.#moveTo(count, much);
      this.#before.set(this.positions);
      return -1;
    }
  }

  /** Loads of constant power that starved at the step before and get what they ask for now: from their open voltage, or the lower of two answers would be found. */
  #risen(): readonly number[] {
    const { positions, compiled: { moving, law } } = this;
    const risen: number[] = [];
    for (let n = 0; n < moving.length; n++) { const k = moving[n]!; if (law[k] === Law.power && positions[k] === Position.regulating && this.#before[k] === Position.starved) risen.push(k); }
    return risen;
  }

  /**
   * From above, a step of Newton's method never takes more than half the voltage of a load of constant power that has one (it lies above half the
   * open voltage): what falls further has none, and is the resistor that it is below its knee.
   * @returns whether some load fell
   */
  #starve(count: number, much: Float64Array): boolean {
    const { positions, numbers, compiled: { moving, law, branchA, branchB } } = this;
    let fell = false;
    for (let n = 0; n < moving.length; n++) {
      const k = moving[n]!;
      if (positions[k] !== Position.regulating || this.opened[k] === 1 || (law[k] === Law.power ? !(numbers.amount[k]! > 0) : law[k] !== Law.converterIn)) continue;
      const a = branchA[k]!, b = branchB[k]!;
      let next = valueAt(this.#base!.x, a) - valueAt(this.#base!.x, b);
      for (let j = 0; j < count; j++) { const z = this.#columns[j]!.whole; next += much[j]! * (valueAt(z, a) - valueAt(z, b)); }
      const share = next / this.voltageAcross(k);
      if (share >= HALF && share <= DOUBLE) continue;
      positions[k] = Position.starved;
      fell = true;
    }
    return fell;
  }
  override pinIslands(): void { if (this.#base === undefined) super.pinIslands(); }
  override oneWay(): Uint8Array { return this.#base === undefined ? super.oneWay() : this.#noneOneWay; }
  override startedAtRounding(): boolean { return this.#base === undefined && super.startedAtRounding(); }
  override coilDemand(n: number): 0 | 1 | 2 { return this.isFrozen ? 2 : super.coilDemand(n); }
  override mostVoltageAt(k: number): number {
    const sides = this.#sides;
    if (this.#base === undefined || sides === undefined) return this.largestVoltage;
    for (const { a, b } of this.further) if (a >= 0 && b >= 0 && sides.of[a] !== sides.of[b]) return this.largestVoltage;
    const a = this.compiled.branchA[k]!;
    const side = sides.of[a < 0 ? this.compiled.branchB[k]! : a]!;
    return side === undefined ? this.largestVoltage : sides.most[side]!;
  }
  override mayHaveRisen(k: number): boolean {
    if (this.#base === undefined || this.#base.positions[k] !== Position.starved || this.touched[k] === 1) return true;
    const { branchA, branchB } = this.compiled, x = this.#base.x;
    const before = valueAt(x, branchA[k]!) - valueAt(x, branchB[k]!);
    return Math.abs(this.voltageAcross(k) - before) > AS_BEFORE * Math.abs(before) + 1e-6;
  }
  override setContacts(coilPickedUp: Uint8Array): void {
    if (this.#base === undefined) { super.setContacts(coilPickedUp); return; }
    const { coils } = this.compiled;
    for (let n = 0; n < coils.length; n++) for (const { branch, makes } of coils[n]!.contacts) if (this.held[branch] === 0) this.positions[branch] = (coilPickedUp[n] === 1) === makes ? Position.closed : Position.open;
  }

  /** Branches whose row is another one than in the solution. @returns how many rows, further paths included */
  #collect(): number {
    const rows = this.#rows, { positions, touched, compiled: { moving, branchCount } } = this;
    const before = this.#base!.positions, followed = this.#followed;
    rows.length = 0;
    for (let n = 0; n < moving.length; n++) { const k = moving[n]!; if (followed[k] === 0 && (this.#isFar(k) || !this.#isKept(k))) followed[k] = 1; }
    for (let k = 0; k < branchCount; k++) if (positions[k] !== before[k] || touched[k] === 1 || followed[k] === 1) rows.push(k);
    return rows.length + this.further.length;
  }

  /** Whether a curved law has another slope here than in the solution. */
  #isFar(k: number): boolean {
    const { branchA, branchB } = this.compiled, x = this.#base!.x;
    const before = valueAt(x, branchA[k]!) - valueAt(x, branchB[k]!);
    return Math.abs(this.voltageAcross(k) - before) > FAR * Math.abs(before);
  }
  #isKept(k: number): boolean { return this.opened[k] === 1 || Math.abs(this.branchResidual(k)) <= LAW_KEPT * (Math.abs(this.current(k)) + 1e-6); }

  /** @returns by row, how much of its column; undefined: the rows contradict each other */
  #solveRows(count: number): Float64Array | undefined {
    const { compiled: { branchA, branchB, nodeCount, law } } = this;
    const rows = this.#rows, further = this.further, dense = this.#dense, columns = this.#columns;
    const branches = rows.length, width = count + 1;
    columns.length = 0;
    for (const k of rows) columns.push(this.#branchColumn(k));
    for (const { a, b } of further) columns.push(this.#pathColumn(a, b));
    const x = this.#base!.x;
    for (let i = 0; i < branches; i++) {
      const k = rows[i]!, a = branchA[k]!, b = branchB[k]!;
      if (this.#isLasting[k] === 1 && law[k] !== Law.converterIn) {
        // what is looked at lies close together
        const { alpha, beta, gamma } = this.rows.rowOf(k);
        const atA = this.#placeOf[a + 1]!, atB = this.#placeOf[b + 1]!, atCurrent = this.#placeOf[nodeCount + k + 1]!;
        for (let j = 0; j < count; j++) { const z = columns[j]!.looked; dense[i * width + j] = alpha * ((a < 0 ? 0 : z[atA]!) - (b < 0 ? 0 : z[atB]!)) + beta * z[atCurrent]!; }
        dense[i * width + count] = gamma - alpha * (valueAt(x, a) - valueAt(x, b)) - beta * x[nodeCount + k]!;
        continue;
      }
      if (this.opened[k] === 1) {
        for (let j = 0; j <= count; j++) dense[i * width + j] = (j === count ? x : columns[j]!.whole)[nodeCount + k]!;
        dense[i * width + count]! *= -1;
        continue;
      }
      const { alpha, beta, gamma, onOutputVoltage, onOutputCurrent } = this.rows.rowOf(k);
      for (let j = 0; j <= count; j++) {
        const z = j === count ? x : columns[j]!.whole;
        let value = alpha * (valueAt(z, a) - valueAt(z, b)) + beta * z[nodeCount + k]!;
        if (law[k] === Law.converterIn) value += onOutputVoltage * (valueAt(z, branchA[k - 1]!) - valueAt(z, branchB[k - 1]!)) + onOutputCurrent * z[nodeCount + k - 1]!;
        dense[i * width + j] = j === count ? gamma - value : value;
      }
    }
    for (let i = branches; i < count; i++) {
      const { a, b, resistance } = further[i - branches]!;
      for (let j = 0; j <= count; j++) { const z = j === count ? x : columns[j]!.whole; dense[i * width + j] = valueAt(z, a) - valueAt(z, b); }
      dense[i * width + i]! += resistance;
      dense[i * width + count]! *= -1;
    }
    return eliminate(dense, count);
  }

  #moveTo(count: number, much: Float64Array): void {
    const { x, compiled: { nodeCount, moving } } = this;
    const next = this.#next, base = this.#base!, looked = this.#looked;
    this.#much = much;
    for (let p = 0; p < looked.length; p++) next[p] = base.x[looked[p]!]!;
    for (let j = 0; j < count; j++) {
      const c = much[j]!, z = this.#columns[j]!.looked;
      if (c !== 0) for (let p = 0; p < z.length; p++) next[p]! += c * z[p]!;
    }
    for (let f = 0, j = this.#rows.length; j < count; f++, j++) this.further[f]!.current = -much[j]!;
    let voltage = base.largestVoltage, current = base.largestCurrent, voltageChange = 0, currentChange = 0, sum = 0;
    for (let p = 0; p < looked.length; p++) {
      const n = looked[p]!, now = next[p]!, size = Math.abs(now), d = Math.abs(now - x[n]!);
      sum += size;
      x[n] = now;
      if (n < nodeCount) { if (size > voltage) voltage = size; if (d > voltageChange) voltageChange = d; }
      else { if (size > current) current = size; if (d > currentChange) currentChange = d; }
    }
    this.largestVoltage = voltage;
    this.largestCurrent = current;
    const isFinite = sum < Infinity;
    let holds = isFinite;
    for (let n = 0; holds && n < moving.length; n++) holds = this.#isKept(moving[n]!);
    // rows that are straight are exact after one step
    this.lastChange = !isFinite ? Infinity : holds ? 0 : Math.max(voltageChange / (voltage + 1e-3), currentChange / (current + 1e-3));
  }

  #branchColumn(k: number): Column {
    return this.#store.column(k, this.#isLasting[k] === 1, (u) => { u[this.compiled.nodeCount + k] = 1; });
  }
  #pathColumn(a: number, b: number): Column {
    const { nodeCount, branchCount } = this.compiled;
    return this.#store.column(branchCount + (a + 1) * (nodeCount + 1) + b + 1, false, (u) => { if (a >= 0) u[a] = 1; if (b >= 0) u[b]! -= 1; });
  }
}

const valueAt = (vector: Float64Array, node: number): number => (node < 0 ? 0 : vector[node]!);

