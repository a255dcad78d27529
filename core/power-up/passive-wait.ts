/**
 * How long to wait before anybody reaches in: the time that the capacitors take to 60 V when nothing active works. A discharge of a part's
 * own needs 12 V and electronics that live; a bleeder needs nothing. Then a meter decides.
 */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { remembered } from '../car/remembered.ts';
import { studyDischarge } from '../topics/high-voltage/discharge.ts';

export type PassiveWait =
  | { readonly is: 'none' /** nothing holds more than 60 V */ }
  /** [s]: by the bleeders of the file, and rounded up to what a person counts */
  | { readonly is: 'bleeders'; readonly time: number; readonly wait: number }
  /** no bleeder in the file: leaks alone, in about `time` [s] by the file, if ever */
  | { readonly is: 'leaks'; readonly links: readonly string[]; readonly time: number | undefined };

export const passiveWait: (car: Car, ask: Network) => PassiveWait = remembered(function passiveWait(car: Car, ask: Network): PassiveWait {
  const groups = studyDischarge(car, ask).results.filter(({ isExempt }) => !isExempt);
  if (groups.length === 0) return { is: 'none' };
  const bare = groups.filter(({ bleederPower }) => bleederPower <= 0);
  if (bare.length > 0) {
    const times = bare.map(({ passiveTime }) => passiveTime);
    return { is: 'leaks', links: bare.flatMap(({ links }) => links), time: times.every((time) => time !== undefined) ? Math.max(...times) : undefined };
  }
  const time = Math.max(...groups.map(({ passiveTime }) => passiveTime!));
  return { is: 'bleeders', time, wait: roundedUp(time) };
});

/** To the next second, five seconds, ten seconds, minute. @param time  [s], > 0 */
export function roundedUp(time: number): number {
  const step = time <= 10 ? 1 : time <= 30 ? 5 : time <= 120 ? 10 : 60;
  return Math.ceil(time / step - 1e-9) * step;
}
