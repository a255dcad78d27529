/**
 * The equations of one network at work: numbers, positions, unknowns, factors. Both the solver at rest and the one in time
 * drive it; it knows neither iteration nor time.
 */
import { Position, tiesVoltages } from './branch-law.ts';
import { compileNetwork, emptyNumbers, Law, readNumbers } from './compile-network.ts';
import type { Compiled, Numbers } from './compile-network.ts';
import type { Element, Network } from './element.ts';
import { idealLoops } from './ideal-loops.ts';
import type { IdealBranch, IdealLoops } from './ideal-loops.ts';
import { Joined } from './islands.ts';
import type { EliminationOrder } from './markowitz-order.ts';
import { NetworkRows, PIN } from './network-rows.ts';
import { SparseLu } from './sparse-lu.ts';

/** Sets of nodes that nothing ties to the reference. */
export interface Islands {
  /** index of each node's island; -1 when it is tied to the reference */
  readonly ofNode: Int32Array;
  readonly members: readonly (readonly string[])[];
  readonly first: readonly number[];
}

export class NetworkSystem {
  readonly compiled: Compiled;
  readonly numbers: Numbers;
  readonly size: number;
  /** node voltages, then branch currents */
  readonly x: Float64Array;
  readonly positions: Uint8Array;
  readonly rows: NetworkRows;
  readonly lu: SparseLu;
  readonly joined: Joined;
  /** 1 where a node is pinned */
  readonly pinned: Uint8Array;
  readonly slope: Float64Array;
  readonly offset: Float64Array;
  readonly remembered: Float64Array;
  /** branches whose law has corners */
  readonly corners: Int32Array;
  loops: IdealLoops = { redundant: [], loops: [], contradiction: undefined };
  /** largest voltage and current of the last step, for judging what is small */
  largestVoltage = 0;
  largestCurrent = 0;
  /** largest relative change of the last step */
  lastChange = Infinity;
  /** row of the largest change */
  worstRow = -1;
  /** branch whose corner moved last */
  lastMoved = -1;
  /** steps with new factors, and in all, since the system was made */
  readonly work = { factored: 0, steps: 0 };
  readonly #context;
  /** elements whose numbers stand in `numbers` */
  #read: readonly Element[] | undefined;
  readonly #residual: Float64Array;
  readonly #step: Float64Array;
  readonly #entry: { readonly x: Float64Array; readonly positions: Uint8Array };
  #factored = false;
  /** branches that can never carry current in the present switch positions (nothing leads back) */
  #oneWay: Uint8Array | undefined;
  /** contacts for which `#oneWay` was found */
  readonly #contactsAt: Uint8Array;
  /** positions for which islands were found */
  readonly #joinedAt: Uint8Array;
  /** whether each branch with corners then asked for anything */
  readonly #askedAt: Uint8Array;
  #isJoined = false;
  #islands: Islands | undefined;

  constructor(network: Network, compiled = compileNetwork(network), order?: EliminationOrder) {
    this.compiled = compiled;
    this.numbers = emptyNumbers(compiled);
    const { nodeCount, branchCount } = compiled;
    this.size = nodeCount + branchCount;
    this.x = new Float64Array(this.size);
    this.positions = new Uint8Array(branchCount);
    this.lu = new SparseLu(this.size, order);
    this.joined = new Joined(nodeCount);
    this.pinned = new Uint8Array(nodeCount);
    this.slope = new Float64Array(branchCount);
    this.offset = new Float64Array(branchCount);
    this.remembered = new Float64Array(branchCount);
    this.corners = compiled.cornered;
    this.#contactsAt = new Uint8Array(branchCount);
    this.#joinedAt = new Uint8Array(branchCount);
    this.#askedAt = new Uint8Array(this.corners.length);
    this.#residual = new Float64Array(this.size);
    this.#step = new Float64Array(this.size);
    this.#entry = { x: new Float64Array(this.size), positions: new Uint8Array(branchCount) };
    this.#context = { redundant: new Uint8Array(branchCount), inTime: false, slope: this.slope, offset: this.offset, damping: 0, remembered: this.remembered };
    this.rows = new NetworkRows(compiled, this.numbers, { x: this.x, positions: this.positions, pinned: this.pinned, context: this.#context });
    if (!this.read(network)) throw new Error('a network does not fit the structure it was compiled to');
  }

  /** Takes over other numbers. @returns false if the structure differs */
  read(network: Network): boolean {
    const before = this.#read;
    // what is read in part stands for nothing
    this.#read = undefined;
    if (!readNumbers(this.compiled, network, this.numbers, before)) return false;
    this.#read = network.elements;
    this.rows.renew();
    this.#factored = false;
    return true;
  }

  get inTime(): boolean { return this.#context.inTime; }
  set inTime(inTime: boolean) { this.#context.inTime = inTime; this.#factored = false; this.#isJoined = false; }
  get damping(): number { return this.#context.damping; }
  set damping(damping: number) { this.#context.damping = damping; }

  voltageAcross(k: number): number {
    const a = this.compiled.branchA[k]!, b = this.compiled.branchB[k]!;
    return (a < 0 ? 0 : this.x[a]!) - (b < 0 ? 0 : this.x[b]!);
  }
  voltageAt(node: number): number { return node < 0 ? 0 : this.x[node]!; }
  current(k: number): number { return this.x[this.compiled.nodeCount + k]!; }

  /** Every corner where it stands when nothing is known: loads waiting for their voltage, sources on, switches as told. */
  setStartPositions(coilPickedUp: Uint8Array): void {
    const { compiled, numbers, positions } = this;
    for (let k = 0; k < compiled.branchCount; k++) {
      switch (compiled.law[k]) {
        case Law.switched: positions[k] = numbers.closed[k] === 1 ? Position.closed : Position.open; break;
        case Law.diode: positions[k] = Position.blocking; break;
        case Law.supply: positions[k] = numbers.amount[k]! > 0 ? Position.regulating : Position.off; break;
        case Law.converterOut: case Law.converterIn: positions[k] = Position.off; break;
        case Law.power: case Law.draw: positions[k] = Position.waiting; break;
        default: positions[k] = Position.none;
      }
    }
    this.setContacts(coilPickedUp);
  }

  /** Puts switches as their numbers say and relay contacts as their coils say. */
  setContacts(coilPickedUp: Uint8Array): void {
    const { compiled, numbers, positions } = this;
    let moved = false;
    const put = (k: number, closed: boolean): void => {
      const position = closed ? Position.closed : Position.open;
      if (this.#contactsAt[k] !== position) moved = true;
      positions[k] = position;
      this.#contactsAt[k] = position;
    };
    for (const k of compiled.handSwitches) put(k, numbers.closed[k] === 1);
    for (let n = 0; n < compiled.coils.length; n++) for (const { branch, makes } of compiled.coils[n]!.contacts) put(branch, (coilPickedUp[n] === 1) === makes);
    if (moved) this.#oneWay = undefined;
    this.#findIdealLoops();
  }

  /** Moves single contacts, as they move in time. */
  putContacts(moves: readonly { readonly branch: number; readonly closed: boolean }[]): void {
    for (const { branch, closed } of moves) this.positions[branch] = this.#contactsAt[branch] = closed ? Position.closed : Position.open;
    this.#oneWay = undefined;
    this.#findIdealLoops();
    this.#factored = false;
  }

  /** Which coils are energised now: 1 picks up, 0 drops out, 2 between the two (keeps). */
  coilDemand(n: number): 0 | 1 | 2 {
    const group = this.compiled.coils[n]!;
    const v = this.coilVoltage(n);
    const seen = group.polarised ? v : Math.abs(v);
    return seen >= this.numbers.pickUp[n]! ? 1 : seen < this.numbers.dropOut[n]! ? 0 : 2;
  }
  coilVoltage(n: number): number {
    const [a, b] = this.compiled.coils[n]!.coil;
    return this.joined.together(a, b) ? this.voltageAt(a) - this.voltageAt(b) : 0;
  }

  /** Whether a load that starves may have a second, higher voltage that has not been looked for yet. */
  mayHaveRisen(_: number): boolean { return true; }

  /** No node that may feed branch k has more [V]. */
  mostVoltageAt(_: number): number { return this.largestVoltage; }

  /** Joins nodes by what ties voltages in the present positions and pins every loose island. */
  pinIslands(): void {
    const { compiled, joined, pinned, numbers, positions } = this;
    if (this.#isJoined && this.#isJoinedHere()) return;
    this.#islands = undefined;
    joined.clear();
    for (let n = 0; n < compiled.conductanceElements.length; n++) { const e = compiled.conductanceElements[n]!; joined.join(compiled.elementA[e]!, compiled.elementB[e]!); }
    for (let k = 0; k < compiled.branchCount; k++) {
      if (tiesVoltages(compiled.law[k]!, positions[k]!, numbers, k, this.inTime)) joined.join(compiled.branchA[k]!, compiled.branchB[k]!);
    }
    for (let n = 0; n < compiled.nodeCount; n++) {
      const pin = joined.root(n) === n ? 1 : 0;
      if (pinned[n] !== pin) { pinned[n] = pin; this.#factored = false; }
    }
    this.#joinedAt.set(positions);
    for (let n = 0; n < this.corners.length; n++) this.#askedAt[n] = numbers.amount[this.corners[n]!] === 0 ? 0 : 1;
    this.#isJoined = true;
  }
  #isJoinedHere(): boolean {
    const { positions, corners } = this;
    const at = this.#joinedAt, amount = this.numbers.amount;
    for (let k = 0; k < at.length; k++) if (at[k] !== positions[k]) return false;
    for (let n = 0; n < corners.length; n++) if ((amount[corners[n]!] === 0 ? 0 : 1) !== this.#askedAt[n]) return false;
    return true;
  }

  /** Loose islands in the positions for which `pinIslands` was called last. */
  islands(): Islands {
    if (this.#islands !== undefined) return this.#islands;
    const { compiled, joined } = this;
    const ofNode = new Int32Array(compiled.nodeCount).fill(-1);
    const byRoot = new Map<number, number>();
    const members: string[][] = [], first: number[] = [];
    for (let n = 0; n < compiled.nodeCount; n++) {
      if (joined.tiedToReference(n)) continue;
      const root = joined.root(n);
      let island = byRoot.get(root);
      if (island === undefined) { island = members.length; byRoot.set(root, island); members.push([]); first.push(n); }
      ofNode[n] = island;
      members[island]!.push(compiled.nodeNames[n]!);
    }
    return (this.#islands = { ofNode, members, first });
  }

  /** Branches with corners through which nothing can flow for want of a way back. */
  oneWay(): Uint8Array {
    if (this.#oneWay !== undefined) return this.#oneWay;
    const { compiled, positions } = this;
    const { branchCount, law } = compiled;
    const present = new Uint8Array(branchCount + compiled.conductanceElements.length + compiled.injectionElements.length).fill(1);
    for (let k = 0; k < branchCount; k++) {
      if (law[k] === Law.switched) present[k] = positions[k] === Position.closed ? 1 : 0;
      else if (law[k] === Law.capacitor && !this.inTime) present[k] = 0;
    }
    this.#oneWay = compiled.bridges().find(present);
    return this.#oneWay;
  }

  /**
   * One Newton step at the present positions: x moves on.
   *
   * @param keepFactors  goes on with the factors at hand if only curved laws have moved since (a chord step)
   * @returns the column that had no pivot, or -1
   */
  step(keepFactors = false): number {
    if (this.rows.write()) this.#factored = false;
    this.work.steps++;
    if (!this.#factored || (!keepFactors && !this.rows.areAsFactored())) {
      const column = this.#factor();
      if (column >= 0) return column;
    }
    this.rows.residual(this.#residual);
    this.lu.solve(this.#residual, this.#step);
    this.moveBy(this.#step);
    return -1;
  }

  /** Keeps where the network stands, to come back to; until it is kept again. */
  keepEntry(): { readonly x: Float64Array; readonly positions: Uint8Array } {
    this.#entry.x.set(this.x);
    this.#entry.positions.set(this.positions);
    return this.#entry;
  }

  /** Whether the last step started where nothing but rounding was left to do, so that its changes mean nothing. */
  startedAtRounding(): boolean { return this.rows.isRounding(this.#residual); }

  /** How far branch k is from its law where x stands. */
  branchResidual(k: number): number {
    const { alpha, beta, gamma, onOutputVoltage, onOutputCurrent } = this.rows.rowOf(k);
    const residual = gamma - alpha * this.voltageAcross(k) - beta * this.current(k);
    return this.compiled.law[k] === Law.converterIn ? residual - onOutputVoltage * this.voltageAcross(k - 1) - onOutputCurrent * this.current(k - 1) : residual;
  }

  /** Factors the matrix exactly where x stands. @returns the column without a pivot, or -1 */
  factorHere(): number {
    if (this.rows.write()) this.#factored = false;
    return this.#factored && this.rows.areAsFactored() ? -1 : this.#factor();
  }

  /** The next step needs new factors (after pins or the form of a time step changed). */
  forget(): void { this.#factored = false; }

  /** Largest current through a pin [A] and the node pinned: not zero only if a current source has no way back. */
  worstPin(): { current: number; node: number } {
    let current = 0, node = -1;
    for (let n = 0; n < this.compiled.nodeCount; n++) {
      if (this.pinned[n] === 1 && PIN * Math.abs(this.x[n]!) > current) { current = PIN * Math.abs(this.x[n]!); node = n; }
    }
    return { current, node };
  }

  #factor(): number {
    this.work.factored++;
    const { singularColumn } = this.lu.refactor(this.rows.matrix);
    this.#factored = singularColumn < 0;
    if (this.#factored) this.rows.keepAsFactored();
    return singularColumn;
  }

  /** x += change, and how large it has become. */
  protected moveBy(change: Float64Array): void {
    const x = this.x;
    const nodes = this.compiled.nodeCount;
    let voltage = 0, current = 0, voltageChange = 0, currentChange = 0, voltageRow = -1, currentRow = -1, sum = 0;
    for (let n = 0; n < nodes; n++) {
      const d = Math.abs(change[n]!);
      sum += d;
      const size = Math.abs(x[n]! += change[n]!);
      if (size > voltage) voltage = size;
      if (d > voltageChange) { voltageChange = d; voltageRow = n; }
    }
    for (let n = nodes; n < this.size; n++) {
      const d = Math.abs(change[n]!);
      sum += d;
      const size = Math.abs(x[n]! += change[n]!);
      if (size > current) current = size;
      if (d > currentChange) { currentChange = d; currentRow = n; }
    }
    this.largestVoltage = voltage;
    this.largestCurrent = current;
    const byVoltage = voltageChange / (voltage + 1e-3), byCurrent = currentChange / (current + 1e-3);
    this.lastChange = Number.isFinite(sum) ? Math.max(byVoltage, byCurrent) : Infinity;
    this.worstRow = byVoltage >= byCurrent ? voltageRow : currentRow;
  }

  #findIdealLoops(): void {
    const { compiled, numbers, positions } = this;
    const ideal: IdealBranch[] = [];
    for (let k = 0; k < compiled.branchCount; k++) {
      if (numbers.resistance[k] !== 0) continue;
      const law = compiled.law[k]!;
      const stores = law === Law.inductor && (!this.inTime || numbers.amount[k] === 0);
      if (!(law === Law.resistive || stores || (law === Law.switched && positions[k] === Position.closed))) continue;
      ideal.push({ branch: k, a: compiled.branchA[k]!, b: compiled.branchB[k]!, voltage: law === Law.resistive ? numbers.voltage[k]! : 0 });
    }
    const before = this.loops.redundant.length;
    this.loops = idealLoops(compiled.nodeCount, ideal);
    if (before === 0 && this.loops.redundant.length === 0) return;
    this.#context.redundant.fill(0);
    for (const k of this.loops.redundant) this.#context.redundant[k] = 1;
    this.rows.renew();
  }
}
