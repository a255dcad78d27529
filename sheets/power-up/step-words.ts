/** The words of a power-up step on paper. */
import type { Car } from '../../core/car/car.ts';
import type { State } from '../../core/car/state.ts';
import type { Band, Limit, Measure, PowerUpStep } from '../../core/power-up/step.ts';
import type { QuantityName } from '../../core/quantity/quantity-table.ts';
import type { Numbers } from '../shown.ts';
import { fewNames } from '../table/few-names.ts';

/** What is laid across with less than this is a clip [ohm]. */
const CLIP = 0.05;
/** What no meter shows is zero. */
const plain = (value: number): number => (Math.abs(value) < 1e-5 ? 0 : value);

export function pointsWords(measure: Measure): string {
  switch (measure.is) {
    case 'voltage': return `${measure.a} (red) to ${measure.b}`;
    case 'difference': return `${measure.first.join(' to ')}, less ${measure.second.join(' to ')}`;
    case 'resistance': return `${measure.a} to ${measure.b}`;
    case 'insulation': return `${fewNames(measure.poles, 6)} to ${measure.b}`;
    // of a part: what it shows itself
    case 'current': return measure.element.includes('.') ? `what ${measure.element.split('.')[0]!} shows` : `around ${measure.element}`;
    case 'isolation': return `${measure.positive} and ${measure.negative} to the chassis`;
    case 'time': return `${measure.voltageAt[0]} to ${measure.voltageAt[1]}, stopwatch`;
  }
}

export function bandWords({ low, high }: Band, quantity: QuantityName, { say }: Numbers): string {
  return `right from ${say(plain(low), quantity)} to ${say(plain(high), quantity)}`;
}

export function limitWords({ sense, value, to, source }: Limit, quantity: QuantityName, { say }: Numbers): string {
  const said = sense === 'between' ? `${say(value, quantity)} to ${say(to ?? value, quantity)}` : `${sense === 'at_least' ? 'at least' : 'at the most'} ${say(value, quantity)}`;
  return `Limit: ${said} (${source})`;
}

/** Quantities of the settings of a car's parts: without them a number of a setting is said bare. */
export type SettingQuantity = (part: string, setting: string) => QuantityName | undefined;

export const settingQuantities = (car: Car): SettingQuantity => (part, setting) => { const field = car.parts.get(part)?.kind.settings[setting]; return field?.type === 'quantity' ? field.quantity : undefined; };

/** Mode, what is not made, what is set otherwise, what is laid across. */
export function stateWords(state: State | undefined, { say }: Numbers, quantityOf: SettingQuantity = () => undefined): readonly string[] {
  if (!state) return [];
  const { mode, without = [], set = {}, failures = [], bridges = [] } = state;
  const valueOf = (part: string, name: string, value: unknown): string => { const quantity = quantityOf(part, name); return typeof value === 'number' && quantity !== undefined ? say(value, quantity) : String(value); };
  const settings = Object.entries(set).map(([part, values]) => ({ part, said: Object.entries(values).map(([name, value]) => (value === true ? name : value === false ? `not ${name}` : `${name} ${valueOf(part, name, value)}`)).join(', ') }));
  const alike = new Map<string, string[]>();
  for (const { part, said } of settings) alike.set(said, [...(alike.get(said) ?? []), part]);
  return [
    mode === undefined ? 'everything off' : `mode ${mode}`,
    ...(without.length > 0 ? [`not joined: ${fewNames(without, 4)}`] : []),
    ...[...alike].map(([said, parts]) => `${fewNames(parts, 3)}: ${said}`),
    ...failures.map(({ part, failure }) => `${part}: ${failure.replaceAll('_', ' ')}`),
    ...bridges.map(({ a, b, resistance }) => (resistance <= CLIP ? `${a} clipped to ${b}` : `${say(resistance, 'resistance')} from ${a} to ${b}`)),
  ];
}

/** A wrong reading, in words of what reads then. */
export function causeWords(causes: readonly { readonly part: string; readonly meaning: string; readonly reads: number | undefined }[], quantity: QuantityName | undefined, { say }: Numbers): readonly string[] {
  return causes.map(({ part, meaning, reads }) => `${part}: ${meaning} (${reads === undefined || quantity === undefined ? 'then nothing conducts' : `then about ${say(plain(reads), quantity)}`})`);
}

/** Of a step without a meter. */
export const hasReading = (step: Pick<PowerUpStep, 'measure' | 'instrument'>): boolean => step.measure !== undefined || step.instrument !== undefined;
