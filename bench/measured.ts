/** One measured claim: ours against a reference in the same run. */
export interface Measured {
  readonly name: string;
  /** of both numbers; absent: ms */
  readonly unit?: string;
  /** [ms], or in `unit` */
  readonly ours: number;
  readonly reference: number;
  readonly referenceName: string;
  /** in words, with its limit */
  readonly wanted: string;
  readonly isMet: boolean;
}

/** Median time of `times` runs of a function [ms], after `warm` runs that do not count. */
export function medianTime(work: () => unknown, times: number, warm: number): number {
  for (let run = 0; run < warm; run++) work();
  const taken: number[] = [];
  for (let run = 0; run < times; run++) {
    const start = performance.now();
    work();
    taken.push(performance.now() - start);
  }
  return taken.sort((a, b) => a - b)[Math.floor(times / 2)] as number;
}
