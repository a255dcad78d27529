/**
 * Mass: total, axle loads, sides and centre of gravity, before and after, against the ratings.
 */
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import type { Topic } from '../topic.ts';
import { balanceOf } from './balance.ts';
import type { Balance, VehicleBefore } from './balance.ts';
import { massEntries } from './masses.ts';
import type { MassEntry } from './masses.ts';

export interface MassResults {
  readonly entries: readonly MassEntry[];
  readonly before: Balance | undefined;
  readonly after: Balance | undefined;
  /** sums [kg] */
  readonly removed: number; readonly added: number;
}

/** Change of the front axle's share that a vehicle takes without its brakes and springs being looked at; common practice, no source. */
const SHARE_CHANGE = 0.08;
/** Difference between the sides as a share of the total; common practice, no source. */
const SIDE_DIFFERENCE = 0.06;
/** Rise of the centre of gravity, load included, that needs no second thought; common practice, no source. */
const HEIGHT_RISE = 0.05;

export const mass: Topic<MassResults> = {
  name: 'mass',
  readsBulk: true,
  study: (car) => {
    const entries = massEntries(car);
    const vehicle = vehicleBefore(car);
    const before = vehicle.before && balanceOf(vehicle.before, []);
    const after = vehicle.before && balanceOf(vehicle.before, entries);
    const sum = (change: MassEntry['change']): number => entries.reduce((total, entry) => total + (entry.change === change ? entry.mass ?? 0 : 0), 0);
    const results = { entries, before, after, removed: sum('removed'), added: sum('added') };
    // a trailer, a boat, a file just begun: one thing to say, not six
    if (Object.keys(car.vehicle).length === 0) return { results, checks: [...entryChecks(entries), { code: 'mass.total', about: ['vehicle'], sense: 'at_most', quantity: 'mass', needs: vehicle.needs }] };
    return { results, checks: [...entryChecks(entries), ...ratingChecks(car, entries, vehicle.needs, after), ...changeChecks(vehicle.needs, before, after)] };
  },
};

function vehicleBefore(car: Car): { before: VehicleBefore | undefined; needs: string[] } {
  const value = (name: string): number | undefined => car.vehicle[name] as number | undefined;
  const needs = ['wheelbase', 'front_track', 'rear_track', 'front_axle_load', 'rear_axle_load'].filter((name) => value(name) === undefined).map((name) => `vehicle.${name}`);
  if (needs.length > 0) return { before: undefined, needs };
  return {
    needs,
    before: {
      wheelbase: value('wheelbase') as number, frontTrack: value('front_track') as number, rearTrack: value('rear_track') as number,
      frontLoad: value('front_axle_load') as number, rearLoad: value('rear_axle_load') as number, leftLoad: value('left_load'), height: value('centre_of_gravity_height'),
    },
  };
}

/** One check for all entries together, or a list of what is missing. */
function entryChecks(entries: readonly MassEntry[]): Check[] {
  const lacking = entries.filter(({ needs }) => needs.length > 0);
  return lacking.length === 0
    ? [{ code: 'mass.all-weighed', about: [], value: 1, limit: 1, sense: 'is_true' }]
    : lacking.map(({ name, needs }) => ({ code: 'mass.all-weighed', about: [name], sense: 'is_true', needs }));
}

function ratingChecks(car: Car, entries: readonly MassEntry[], needs: readonly string[], after: Balance | undefined): Check[] {
  const missingMass = entries.filter(({ mass: kilograms }) => kilograms === undefined).map(({ name, change }) => `${change === 'removed' ? 'removed' : 'parts'}.${name}.mass`);
  const rated = [
    { code: 'mass.total', rating: 'total_rating', value: after?.total },
    { code: 'mass.front-axle', rating: 'front_axle_rating', value: after?.front },
    { code: 'mass.rear-axle', rating: 'rear_axle_rating', value: after?.rear },
  ];
  return rated.map(({ code, rating, value }) => {
    const limit = car.vehicle[rating] as number | undefined;
    const lacks = [...needs, ...missingMass, ...(limit === undefined ? [`vehicle.${rating}`] : [])];
    const common = { code, about: ['vehicle'], path: `vehicle.${rating}`, sense: 'at_most' as const, quantity: 'mass' as const };
    return lacks.length > 0 || value === undefined || limit === undefined ? { ...common, needs: lacks } : { ...common, value, limit };
  });
}

function changeChecks(needs: readonly string[], before: Balance | undefined, after: Balance | undefined): Check[] {
  const share: Check = { code: 'mass.axle-share', about: ['vehicle'], sense: 'at_most', quantity: 'ratio' };
  const sides: Check = { code: 'mass.sides', about: ['vehicle'], sense: 'at_most', quantity: 'ratio' };
  const height: Check = { code: 'mass.centre-height', about: ['vehicle'], sense: 'at_most', quantity: 'length' };
  if (!before || !after) return [{ ...share, needs }, { ...sides, needs }, { ...height, needs }];
  const ratio = (value: number): { value: number; quantity: 'ratio' } => ({ value, quantity: 'ratio' });
  const [shareBefore, shareAfter] = [before.front / before.total, after.front / after.total];
  return [
    { ...share, value: Math.abs(shareAfter - shareBefore), limit: SHARE_CHANGE, details: { before: ratio(shareBefore), after: ratio(shareAfter) } },
    after.left === undefined || after.right === undefined
      ? { ...sides, needs: ['vehicle.left_load'] }
      : { ...sides, value: Math.abs(after.left - after.right) / after.total, limit: SIDE_DIFFERENCE, details: { left: { value: after.left, quantity: 'mass' }, right: { value: after.right, quantity: 'mass' } } },
    after.centreZ === undefined || before.centreZ === undefined
      ? { ...height, needs: ['vehicle.centre_of_gravity_height'] }
      : { ...height, value: after.centreZ, limit: before.centreZ * (1 + HEIGHT_RISE), details: { before: { value: before.centreZ, quantity: 'length' } } },
  ];
}
