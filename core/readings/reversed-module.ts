/** What a reading across a string would be with one module the wrong way round, or with one bridged. */
import type { Network } from '../car/ask.ts';
import type { Car } from '../car/car.ts';
import { stringsOf } from '../car/strings.ts';
import { netOf, voltageBetween } from '../power-up/plan.ts';
import type { PowerUpStep } from '../power-up/step.ts';
import { printValue } from '../quantity/print-value.ts';
import type { Meaning } from './verdict.ts';

/**
 * Only for a voltage across a whole string: each module counts with its own voltage in the state of the step.
 * Modules that would read the same share one meaning.
 */
export function moduleMeanings(car: Car, ask: Network, { measure, predicted, state = {} }: PowerUpStep): readonly Meaning[] {
  if (measure?.is !== 'voltage' || !predicted) return [];
  const net = netOf(car);
  const string = stringsOf(car).packs.flatMap(({ strings }) => strings).find(({ positive, negative }) => net(positive) === net(measure.a) && net(negative) === net(measure.b));
  if (!string || string.modules.length < 2) return [];
  const byVoltage = new Map<string, { readonly volts: number; readonly names: string[] }>();
  for (const { part, positive, negative } of string.modules) {
    const volts = voltageBetween(ask, state, positive, negative);
    const key = printValue(volts, 'voltage', { digits: 3 });
    const group = byVoltage.get(key);
    if (group) group.names.push(part.name);
    else byVoltage.set(key, { volts, names: [part.name] });
  }
  return [...byVoltage].flatMap(([key, { volts, names }]): Meaning[] => {
    const [part, which] = names.length === 1 ? [names[0], ''] : [undefined, `One of ${names.join(', ')}`];
    return [
      { part, says: `${which}${which === '' ? 'appears' : ' appears'} reversed: −${key} where +${key} is expected`, reads: predicted.nominal - 2 * volts, fits: false },
      { part, says: `${which}${which === '' ? 'is' : ' is'} bridged or left out: ${key} are missing`, reads: predicted.nominal - volts, fits: false },
    ];
  });
}
