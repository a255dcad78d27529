/**
 * Loads under axles and sides, and the centre of gravity, from masses and their places.
 *
 * Axes as in ISO 4130: x from the front axle line rearward, y to the right from mid-track, z up from the ground.
 */
import { requireFinite, requirePositive } from './argument-rule.ts';

export interface MassAt {
  /** [kg]; negative for what was taken out */
  readonly mass: number;
  /** [m] */
  readonly x: number;
  readonly y: number;
}

export interface AxleLoads {
  /** what a scale under each axle shows [kg]; negative: the axle lifts */
  readonly front: number;
  readonly rear: number;
  readonly left: number;
  readonly right: number;
  readonly total: number;
  /** centre of gravity behind the front axle and right of mid-track [m] */
  readonly x: number;
  readonly y: number;
}

export type AxleLoadsOutcome = ({ readonly outcome: 'loads' } & AxleLoads) | { readonly outcome: 'no_mass'; readonly total: number };

/**
 * Axle and side loads of a vehicle that was weighed, after masses were added and taken out.
 *
 * @param weighed    front and rear axle as weighed [kg], and mass share on the right side [1] (0.5 when not weighed)
 * @param changes    added (positive) and removed (negative) masses
 * @param wheelbase  [m]
 * @param track      mean of both axles [m]
 * @returns loads [kg] and centre of gravity [m]; `no_mass` when nothing is left
 * Range:   level ground, small angles; both axles have the same track
 * Source:  [jazar-vehicle-dynamics] equations 2.15-2.16 (moments about the axles)
 * Checked: checks/reference/axle-loads.jazar.check.ts
 */
export function axleLoads(weighed: { readonly front: number; readonly rear: number; readonly rightShare: number }, changes: readonly MassAt[], wheelbase: number, track: number): AxleLoadsOutcome {
  requirePositive({ wheelbase, track });
  requireFinite({ front: weighed.front, rear: weighed.rear, rightShare: weighed.rightShare });
  let total = weighed.front + weighed.rear;
  let momentX = weighed.rear * wheelbase;
  let momentY = (weighed.rightShare - 0.5) * total * track;
  for (const { mass, x, y } of changes) {
    requireFinite({ mass, x, y });
    total += mass;
    momentX += mass * x;
    momentY += mass * y;
  }
  if (!(total > 0)) return { outcome: 'no_mass', total };
  const rear = momentX / wheelbase;
  const right = total / 2 + momentY / track;
  return { outcome: 'loads', front: total - rear, rear, left: total - right, right, total, x: momentX / total, y: momentY / total };
}

export interface RaisedWeighing {
  /** level axle loads, any one unit of mass or force */
  readonly front: number;
  readonly rear: number;
  /** the axle that stays on the scale, with the other raised */
  readonly onScale: 'front' | 'rear';
  readonly raisedReading: number;
  /** lift of the other axle's wheel centres [m] */
  readonly lift: number;
  /** [m] */
  readonly wheelbase: number;
  /** height of the axle lines: loaded wheel radius [m], mean of both axles */
  readonly wheelRadius: number;
}

/**
 * Height of the centre of gravity above ground, from a second weighing with one axle raised: h = r + L dF/(W tan theta).
 *
 * sin theta = lift/wheelbase; dF = gain on the scale. Suspension must be locked, or its deflection is the largest error.
 *
 * @returns height [m] and how much it moves per unit of scale error [m]
 * Errors:  throws when the lift is not between 0 and the wheelbase or a load is not > 0
 * Source:  [jazar-vehicle-dynamics] equation 2.32 in its equivalent form; mean radius by equation 2.35
 * Checked: checks/reference/axle-loads.jazar.check.ts
 */
export function gravityHeight(weighing: RaisedWeighing): { readonly height: number; readonly perScaleUnit: number } {
  const { front, rear, lift, wheelbase, wheelRadius, raisedReading } = weighing;
  requirePositive({ front, rear, lift, wheelbase, wheelRadius, raisedReading });
  if (lift >= wheelbase) throw new RangeError(`lift ${lift} m must be below the wheelbase ${wheelbase} m`);
  const tangent = lift / Math.sqrt(wheelbase ** 2 - lift ** 2);
  const gain = raisedReading - (weighing.onScale === 'front' ? front : rear);
  const perScaleUnit = wheelbase / ((front + rear) * tangent);
  return { height: wheelRadius + gain * perScaleUnit, perScaleUnit };
}

/**
 * Load that moves from the rear to the front axle under braking: m a h / L.
 *
 * @param deceleration  [m/s2], negative under acceleration
 * @returns [N]
 * Source:  textbook statics, rigid and level
 * Checked: checks/reference/axle-loads.jazar.check.ts
 */
export function loadTransfer(mass: number, deceleration: number, height: number, wheelbase: number): number {
  requirePositive({ mass, wheelbase });
  requireFinite({ deceleration, height });
  return (mass * deceleration * height) / wheelbase;
}
