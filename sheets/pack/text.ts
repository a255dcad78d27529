/** The pack in words. */
import type { TextBlock } from '../text-block.ts';
import type { ChainModel, PackModel, PackOnSheet } from './model.ts';

export function classWords({ voltageClass, highest, chains }: PackOnSheet): string {
  const under = 'Under each joint: its voltage now against pack negative, below it the range from every cell at its lowest to every cell at its highest.';
  const odd = chains.some(({ isOwnZero }) => isOwnZero) ? ' Where the strings do not make one pack with two ends, each string counts from its own negative end.' : '';
  if (voltageClass === undefined) return `The voltage class is not known: cells lack values. ${under}${odd}`;
  if (voltageClass === 'A') return `Voltage class A: at most ${highest.text}, up to 60 V. No shock hazard by itself, but a short melts a spanner. ${under}${odd}`;
  return `Voltage class B: up to ${highest.text} between the ends; once joined, every piece of it is class B (heavy line), the first module too. ${under}${odd}`;
}

/** Modules that stand in no chain. */
export function leftOutWords({ unconnected, shorted, notCounted }: PackModel): readonly string[] {
  return [
    ...(unconnected.length > 0 ? [`Joined to nothing: ${unconnected.join(', ')}.`] : []),
    ...(shorted.length > 0 ? [`Their own poles are joined by metal, a dead short: ${shorted.join(', ')}.`] : []),
    ...(notCounted.length > 0 ? [`Not counted, values are missing: ${notCounted.join(', ')}.`] : []),
  ];
}

export function chainText(chain: ChainModel): readonly TextBlock[] {
  return [
    { kind: 'heading', text: `String ${chain.name}` },
    { kind: 'paragraph', text: `${chain.modules} modules in series from ${chain.negative} to ${chain.positive}: ${chain.pieces.map(({ name }) => name).join(', ')}.` },
    { kind: 'paragraph', text: `Readings: mean ${chain.mean.text} per cell, highest minus lowest ${chain.spread.text} per cell, charge by the meter ${chain.charge.text}.${chain.notRead.length > 0 ? ` Not measured: ${chain.notRead.join(', ')}.` : ''}` },
    ...(chain.shortedBy ? [{ kind: 'paragraph', text: `Its two ends are joined by metal: ${chain.shortedBy.join(', ')}.` } as const] : []),
  ];
}
