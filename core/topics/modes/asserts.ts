/** What a mode drives against what the network says of it: outputs that are on must arrive, and what the file asserts must be true. */
import type { Network } from '../../car/ask.ts';
import type { Car, CarPart } from '../../car/car.ts';
import { isTrue } from '../../condition/evaluate.ts';
import type { Check } from '../../findings/finding.ts';
import { valuesIn } from './needs.ts';
import { situationIn } from './situation.ts';

/** An output that is on loses less than this between its rail and its port [V]; common practice, no source. */
const MOST_LOST = 1;

export function assertChecks(car: Car, ask: Network): readonly Check[] {
  return [...car.build.modes.values()].flatMap((mode) => {
    const situation = situationIn(car, ask, { mode: mode.name });
    return [
      ...mode.asserts.map((condition): Check => {
        const holds = isTrue(condition.expression, situation);
        return { code: 'modes.assert-holds', about: [mode.name], variant: condition.text, path: condition.path, value: holds === true ? 1 : 0, limit: 1, sense: 'is_true', ...(holds === undefined ? { needs: [condition.path] } : {}), details: { values: valuesIn(car, ask, { mode: mode.name }, condition) } };
      }),
      ...[...car.parts.values()].flatMap((part) => outputCheck(car, ask, mode.name, part)),
    ];
  });
}

/** Outputs that the mode switches on and that do not drive: the unit sleeps, or has no supply or ground. */
function outputCheck(car: Car, ask: Network, mode: string, part: CarPart): readonly Check[] {
  const outputs = outputsOn(car, mode, part);
  const solved = outputs.length === 0 ? undefined : ask.solve({ mode });
  if (solved?.outcome !== 'solved') return [];
  const dead = outputs.filter(({ port, rail }) => solved.islandOf(port) === solved.islandOf(rail) && Math.abs(solved.voltageOf(port) - solved.voltageOf(rail)) > MOST_LOST);
  return [{ code: 'modes.output-driven', about: [part.name], variant: mode, path: `modes.${mode}.set.${part.name}`, value: dead.length === 0 ? 1 : 0, limit: 1, sense: 'is_true', details: { outputs: (dead.length > 0 ? dead : outputs).map(({ name }) => name).join(', ') } }];
}

/** Outputs of a part that a mode switches on: words of its settings that name a port with electronics behind it. */
export function outputsOn(car: Car, mode: string, part: CarPart): readonly { readonly name: string; readonly port: string; readonly rail: string }[] {
  if (part.roles.switching?.some(({ by }) => by === 'electronics') !== true) return [];
  const words = Object.values(car.modes.get(mode)?.set[part.name] ?? {}).flatMap((value) => (Array.isArray(value) ? value as unknown[] : []));
  return (part.roles.switching ?? []).flatMap(({ by, a, b }) => {
    const name = words.includes(a) ? a : words.includes(b) ? b : undefined;
    return by !== 'electronics' || name === undefined ? [] : [{ name, port: part.names.of(name), rail: part.names.of(name === a ? b : a) }];
  });
}
