/**
 * The elements a network is made of. Numbers only: no part, car or voltage class is known here.
 *
 * Invariants and signs, said once:
 * - nodes are named by strings; the name `chassis` is the reference, 0 V, when it occurs at all;
 * - a current is positive when it flows into the element at `a` and out at `b`;
 * - a source's `a` is its positive terminal: v(a) - v(b) = voltage - resistance * (current out of a);
 * - every id is unique within a network; every number is finite; resistances are >= 0.
 * A resistance of 0 is an ideal short, a source with resistance 0 an ideal source; a loop of those that
 * contradicts itself is the result `contradiction`, not an exception.
 */
export interface Resistor { readonly type: 'resistor'; readonly id: string; readonly a: string; readonly b: string; readonly resistance: number }

/** Electromotive force in series with its internal resistance. */
export interface Source { readonly type: 'source'; readonly id: string; readonly a: string; readonly b: string; readonly voltage: number; readonly resistance: number }

/** Ideal current source: `current` [A] flows through the element from a to b. */
export interface CurrentSource { readonly type: 'current'; readonly id: string; readonly a: string; readonly b: string; readonly current: number }

/** Open at rest. `initial` [V] is v(a) - v(b) when a transient starts; absent: taken from the rest solution, else 0. */
export interface Capacitor { readonly type: 'capacitor'; readonly id: string; readonly a: string; readonly b: string; readonly capacitance: number; readonly initial?: number }

/** Its resistance alone at rest. `initial` [A] a to b. */
export interface Inductor { readonly type: 'inductor'; readonly id: string; readonly a: string; readonly b: string; readonly inductance: number; readonly resistance: number; readonly initial?: number }

/** Made or not made by a hand or by the state: `resistance` when closed; nothing at all when open. */
export interface Switch { readonly type: 'switch'; readonly id: string; readonly a: string; readonly b: string; readonly closed: boolean; readonly resistance: number }

/**
 * A contact that a coil voltage moves. The coil's own current is a separate element.
 * The coil picks up when v(coil[0]) - v(coil[1]) >= pickUp and drops out when it is < dropOut
 * (absolute value unless `polarised`); between the two it keeps `initiallyPickedUp`, or what it was.
 * `contact: 'makes'` is closed when picked up, `'breaks'` is closed when dropped out.
 * `follows` lets several contacts share one coil state: ids of relays with the same coil switch together.
 */
export interface Relay {
  readonly type: 'relay'; readonly id: string; readonly a: string; readonly b: string;
  readonly coil: readonly [string, string]; readonly pickUp: number; readonly dropOut: number;
  readonly polarised?: boolean; readonly contact: 'makes' | 'breaks'; readonly resistance: number;
  readonly initiallyPickedUp?: boolean;
  /** transients only: time from the coil's crossing to the contact's move [s] */
  readonly operateTime?: number; readonly releaseTime?: number;
}

/** Piecewise linear: no current below `drop`, then v = drop + resistance * i, from a (anode) to b. */
export interface Diode { readonly type: 'diode'; readonly id: string; readonly a: string; readonly b: string; readonly drop: number; readonly resistance: number }

/**
 * Takes `power` [W] (negative: gives it back) whatever the voltage, down to `knee` [V]; below the knee it is the resistor knee^2/power
 * (so that it is defined, and continuous, at 0 V). `knee` > 0.
 */
export interface PowerLoad { readonly type: 'power'; readonly id: string; readonly a: string; readonly b: string; readonly power: number; readonly knee: number }

/** Takes `current` [A] whatever the voltage, down to `knee` [V]; below the knee the resistor knee/current. Never gives current back. */
export interface CurrentLoad { readonly type: 'draw'; readonly id: string; readonly a: string; readonly b: string; readonly current: number; readonly knee: number }

/**
 * Voltage-regulated output that may not exceed `currentLimit` [A] and takes nothing back:
 * v(a) - v(b) = voltage - resistance * i while 0 <= i <= currentLimit; i = currentLimit when the load pulls it lower;
 * i = 0 when something else holds the output above `voltage`.
 */
export interface Supply { readonly type: 'supply'; readonly id: string; readonly a: string; readonly b: string; readonly voltage: number; readonly currentLimit: number; readonly resistance: number }

/**
 * A DC-DC stage, isolated between input and output: output as `Supply`, input draws
 * (output voltage * output current) / efficiency + idlePower while v(in) >= minimumInput, else off on both sides (with `idlePower` 0).
 * Reported currents: `id` = output current; `id:in` = input current.
 */
export interface Converter {
  readonly type: 'converter'; readonly id: string; readonly input: readonly [string, string]; readonly output: readonly [string, string];
  readonly voltage: number; readonly currentLimit: number; readonly resistance: number;
  readonly efficiency: number; readonly idlePower: number; readonly minimumInput: number;
  /** caps output power [W]; absent: only the current limit counts */
  readonly powerLimit?: number;
}

export type Element = Resistor | Source | CurrentSource | Capacitor | Inductor | Switch | Relay | Diode | PowerLoad | CurrentLoad | Supply | Converter;

/** `nodes` fixes the order; it may name nodes that no element touches (a loose probe point: an island of its own). */
export interface Network { readonly nodes: readonly string[]; readonly elements: readonly Element[] }

export const REFERENCE_NODE = 'chassis';
