/**
 * Where hands have been, faults are likelier: `disturbed` of a part or run, and of the runs and parts that end there.
 * How much likelier: common practice, no source.
 */
import type { Car } from '../car/car.ts';

const factors: Readonly<Record<string, number>> = { spliced: 5, extended: 4, re_crimped: 5, moved: 3, opened: 3, wetted: 4 };
/** A neighbour that was disturbed: its plug was pulled, its wire bent. */
const BESIDE = 0.3;

export interface Disturbed { readonly factor: number; readonly words: readonly string[] }

/** How much likelier a fault of a part or run is than where nothing was touched. */
export function disturbedAt(car: Car): (name: string) => Disturbed {
  const own = new Map<string, readonly string[]>();
  for (const { name, fields } of [...car.parts.values(), ...car.runs.values()]) {
    const words = fields['disturbed'] as readonly string[] | undefined;
    if (words && words.length > 0) own.set(name, words);
  }
  const beside = new Map<string, string[]>();
  if (own.size > 0) {
    for (const { name, from, to } of car.runs.values()) {
      for (const part of [from, to].map((end) => end.split('.')[0]!)) for (const [one, other] of [[name, part], [part, name]] as const) if (own.has(one)) beside.set(other, [...(beside.get(other) ?? []), one]);
    }
  }
  return (name) => {
    const words = own.get(name) ?? [];
    const most = Math.max(1, ...words.map((word) => factors[word] ?? 1));
    const near = beside.get(name) ?? [];
    const nearMost = Math.max(1, ...near.flatMap((one) => own.get(one)!.map((word) => 1 + BESIDE * ((factors[word] ?? 1) - 1))));
    return { factor: Math.max(most, nearMost), words };
  };
}
