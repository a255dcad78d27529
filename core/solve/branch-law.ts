/**
 * The law of each branch, linearised where it stands: alpha (v_a - v_b) + beta i = gamma, i flowing in at a.
 *
 * A law with corners has positions (`Position`); inside one position it is smooth, and `nextPosition` says which position
 * the present voltages and currents ask for. Supplies, converters and diodes with less resistance than `LEAST_RESISTANCE`
 * are taken to have that much, so that two of them side by side share instead of contradicting each other.
 */
import { Law } from './compile-network.ts';
import type { Numbers } from './compile-network.ts';
import type { ElementState } from './rest-result.ts';

/** [ohm] */
export const LEAST_RESISTANCE = 1e-6;
/** [V]: a converter cannot run from less than this, whatever its `minimumInput` says */
export const LEAST_INPUT = 1e-3;
/** [S]: what a load counts as while its open voltage is looked for */
const WAITING = 1e-6;

/** Position of a branch. `regulating` of a load: it gets what it asks; `starved`: below its knee, a resistor. */
export const Position = {
  none: 0, closed: 1, open: 2, conducting: 3, blocking: 4, regulating: 5, limiting: 6, powerLimiting: 7, off: 8,
  starved: 9, reversed: 10, waiting: 11,
} as const;

export const STATE_OF_POSITION: readonly ElementState[] = [
  'none', 'closed', 'open', 'conducting', 'blocking', 'regulating', 'limiting', 'limiting', 'off', 'limiting', 'regulating', 'limiting',
];

/** One row: alpha, beta, gamma, and for a converter's input the dependence on its output voltage and current. */
export interface Rows {
  readonly alpha: Float64Array;
  readonly beta: Float64Array;
  readonly gamma: Float64Array;
  readonly onOutputVoltage: Float64Array;
  readonly onOutputCurrent: Float64Array;
}

export function emptyRows(count: number): Rows {
  return { alpha: new Float64Array(count), beta: new Float64Array(count), gamma: new Float64Array(count), onOutputVoltage: new Float64Array(count), onOutputCurrent: new Float64Array(count) };
}

/** What changes a law besides its numbers and position. */
export interface LawContext {
  /** 1 where a branch closes a loop of ideal branches: its row says i = 0, the true share is found afterwards */
  readonly redundant: Uint8Array;
  /** stored-energy branches in a time step: v = slope * i + offset; at rest slope is not used */
  readonly inTime: boolean;
  readonly slope: Float64Array;
  readonly offset: Float64Array;
  /** [S] and [V]: a damping conductance across each load and the voltage it remembers; 0: none */
  readonly damping: number;
  readonly remembered: Float64Array;
}

/** Writes row k at the voltage v across it, its current i, and for a converter's input those of its output. */
export function writeRow(k: number, v: number, numbers: Numbers, law: number, position: number, context: LawContext, rows: Rows, outputVoltage: number, outputCurrent: number): void {
  let alpha = 1, beta = 0, gamma = 0;
  switch (law) {
    case Law.resistive:
      beta = -numbers.resistance[k]!; gamma = numbers.voltage[k]!;
      break;
    case Law.switched:
      if (position === Position.closed) beta = -numbers.resistance[k]!;
      else { alpha = 0; beta = 1; }
      break;
    case Law.diode:
      if (position === Position.conducting) { beta = -Math.max(numbers.resistance[k]!, LEAST_RESISTANCE); gamma = numbers.voltage[k]!; }
      else { alpha = 0; beta = 1; }
      break;
    case Law.supply: case Law.converterOut:
      if (position === Position.regulating) { beta = -Math.max(numbers.resistance[k]!, LEAST_RESISTANCE); gamma = numbers.voltage[k]!; }
      else if (position === Position.limiting) { alpha = 0; beta = 1; gamma = -numbers.amount[k]!; }
      else if (position === Position.powerLimiting) { writePower(k, v, -numbers.powerLimit[k]!, 1e-3 * numbers.voltage[k]!, Position.regulating, context, rows); return; }
      else { alpha = 0; beta = 1; }
      break;
    case Law.power: writePower(k, v, numbers.amount[k]!, numbers.knee[k]!, position, context, rows); return;
    case Law.draw: {
      const current = numbers.amount[k]!, knee = numbers.knee[k]!;
      if (current === 0) { alpha = 0; beta = 1; }
      else if (position === Position.waiting) { alpha = -WAITING; beta = 1; }
      else if (position === Position.starved) { if (current > knee) { beta = -knee / current; } else { alpha = -current / knee; beta = 1; } }
      else { alpha = 0; beta = 1; gamma = position === Position.reversed ? -current : current; }
      break;
    }
    case Law.converterIn: writeConverterInput(k, v, numbers, position, context, rows, outputVoltage, outputCurrent); return;
    case Law.capacitor:
      if (context.inTime && numbers.amount[k]! > 0) {
        const slope = context.slope[k]!; // scaled so that a long step over a small capacitance stays well-conditioned
        if (slope > 1) { alpha = 1 / slope; beta = -1; gamma = context.offset[k]! / slope; } else { beta = -slope; gamma = context.offset[k]!; }
      } else { alpha = 0; beta = 1; }
      break;
    case Law.inductor:
      beta = -numbers.resistance[k]!;
      if (context.inTime) {
        beta -= context.slope[k]!;
        gamma = context.offset[k]!;
        const scale = Math.max(1, -beta);
        alpha = 1 / scale; beta /= scale; gamma /= scale;
      }
      break;
  }
  if (context.redundant[k] === 1) { alpha = 0; beta = 1; gamma = 0; }
  rows.alpha[k] = alpha;
  rows.beta[k] = beta;
  rows.gamma[k] = gamma;
}

/** Current of a load by its own law, from the voltage alone [A]. */
export function loadCurrent(law: number, amount: number, knee: number, v: number): number {
  if (amount === 0) return 0;
  const size = Math.abs(v);
  if (law === Law.draw) return size >= knee ? Math.sign(v) * amount : (amount / knee) * v;
  return size >= knee ? amount / v : (amount / (knee * knee)) * v;
}

/** Input current of a converter that is on, by its own law [A]; `delivered` is its output power [W]. */
export function inputCurrent(k: number, numbers: Numbers, v: number, delivered: number): number {
  const power = Math.max(delivered, 0) / numbers.efficiency[k]! + numbers.idlePower[k]!;
  const least = Math.max(numbers.knee[k]!, LEAST_INPUT);
  return v >= least ? power / v : (power / (least * least)) * v;
}

function writePower(k: number, v: number, power: number, knee: number, position: number, context: LawContext, rows: Rows): void {
  let conductance = 0, constant = 0; // i = conductance * v + constant
  if (power === 0) { /* takes nothing */ }
  else if (position === Position.waiting) conductance = WAITING;
  else if (position === Position.starved) conductance = power / (knee * knee);
  else {
    const sign = position === Position.reversed ? -1 : 1;
    const at = sign * Math.max(sign * v, knee);
    conductance = -power / (at * at);
    constant = (2 * power) / at;
  }
  if (context.damping > 0 && power > 0 && position !== Position.waiting) {
    const size = Math.max(Math.abs(context.remembered[k]!), knee);
    const extra = (context.damping * power) / (size * size);
    conductance += extra;
    constant -= extra * context.remembered[k]!;
  }
  const scale = Math.max(1, Math.abs(conductance));
  rows.alpha[k] = -conductance / scale;
  rows.beta[k] = 1 / scale;
  rows.gamma[k] = constant / scale;
}

/** i = P / v (below the least input P v / least^2), P = max(v_out i_out, 0) / efficiency + idle, in all three unknowns. */
function writeConverterInput(k: number, v: number, numbers: Numbers, position: number, context: LawContext, rows: Rows, outputVoltage: number, outputCurrent: number): void {
  rows.onOutputVoltage[k] = 0;
  rows.onOutputCurrent[k] = 0;
  rows.alpha[k] = 0;
  rows.beta[k] = 1;
  rows.gamma[k] = 0;
  if (position === Position.off) return;
  const least = Math.max(numbers.knee[k]!, LEAST_INPUT);
  const starved = position === Position.starved;
  const at = starved ? v : Math.max(v, least);
  const perPower = starved ? at / (least * least) : 1 / at; // i = P * perPower
  const delivered = -outputVoltage * outputCurrent;
  const power = Math.max(delivered, 0) / numbers.efficiency[k]! + numbers.idlePower[k]!;
  let slope = starved ? power / (least * least) : -power / (at * at);
  let constant = power * perPower - slope * at;
  if (delivered > 0) {
    const share = perPower / numbers.efficiency[k]!;
    // dP = -(v_out di_out + i_out dv_out) / efficiency
    rows.onOutputVoltage[k] = share * outputCurrent;
    rows.onOutputCurrent[k] = share * outputVoltage;
    constant += 2 * share * outputVoltage * outputCurrent;
  }
  if (context.damping > 0) {
    // by the most it can take, which stands still while its output moves
    const most = Math.min(Math.abs(numbers.voltage[k - 1]!) * numbers.amount[k - 1]!, numbers.powerLimit[k - 1]!) / numbers.efficiency[k]! + numbers.idlePower[k]!;
    const size = Math.max(Math.abs(context.remembered[k]!), least);
    const extra = (context.damping * most) / (size * size);
    slope += extra;
    constant -= extra * context.remembered[k]!;
  }
  rows.alpha[k] = -slope;
  rows.gamma[k] = constant;
}

/**
 * The position that the present voltage v and current i ask for.
 *
 * @param slackV  [V] and
 * @param slackI  [A]: a corner crossed by less than this is not crossed
 */
export function nextPosition(k: number, v: number, i: number, numbers: Numbers, law: number, position: number, slackV: number, slackI: number): number {
  switch (law) {
    case Law.diode:
      if (position === Position.conducting) return i < -slackI ? Position.blocking : position;
      return v > numbers.voltage[k]! + slackV ? Position.conducting : position;
    case Law.supply: case Law.converterOut: {
      if (position === Position.off && law === Law.supply && numbers.amount[k] === 0) return position;
      const delivered = -i;
      const resistance = Math.max(numbers.resistance[k]!, LEAST_RESISTANCE);
      const regulated = numbers.voltage[k]! - resistance * delivered;
      if (position === Position.off) return v < numbers.voltage[k]! - slackV && numbers.amount[k]! > 0 ? Position.regulating : position;
      if (delivered < -slackI) return Position.off;
      if (position === Position.limiting) {
        if (law === Law.converterOut && v * delivered > numbers.powerLimit[k]! * (1 + 1e-9)) return Position.powerLimiting;
        return v > regulated + slackV ? Position.regulating : position;
      }
      if (delivered > numbers.amount[k]! + slackI) return Position.limiting;
      if (law === Law.supply) return position;
      if (position === Position.powerLimiting) return v > regulated + slackV ? Position.regulating : position;
      return v * delivered > numbers.powerLimit[k]! * (1 + 1e-9) + slackV * slackI ? Position.powerLimiting : position;
    }
    case Law.power: case Law.draw: case Law.converterIn: {
      if (position === Position.waiting || position === Position.off || (numbers.amount[k] === 0 && law !== Law.converterIn)) return position;
      const knee = law === Law.converterIn ? Math.max(numbers.knee[k]!, LEAST_INPUT) : numbers.knee[k]!;
      if (position === Position.starved) {
        if (v >= knee + slackV) return Position.regulating;
        return v <= -knee - slackV && law !== Law.converterIn ? Position.reversed : position;
      }
      return (position === Position.reversed ? -v : v) < knee - slackV ? Position.starved : position;
    }
    default: return position;
  }
}

/** Whether the row ties its two nodes' voltages together (false: it only sets a current). */
export function tiesVoltages(law: number, position: number, numbers: Numbers, k: number, inTime: boolean): boolean {
  switch (law) {
    case Law.resistive: case Law.inductor: return true;
    case Law.switched: return position === Position.closed;
    case Law.diode: return position === Position.conducting;
    case Law.supply: case Law.converterOut: return position === Position.regulating || position === Position.powerLimiting;
    case Law.power: return numbers.amount[k] !== 0;
    case Law.draw: return numbers.amount[k] !== 0 && (position === Position.starved || position === Position.waiting);
    case Law.converterIn: return position !== Position.off;
    case Law.capacitor: return inTime && numbers.amount[k]! > 0;
    default: return false;
  }
}
