/** What the draws of a reading say. */

/** The middle 95 % of what was drawn; undefined with fewer than ten draws. */
export function bandOf(drawn: readonly number[]): { readonly low: number; readonly high: number } | undefined {
  if (drawn.length < 10) return undefined;
  const sorted = [...drawn].sort((a, b) => a - b);
  const at = (share: number): number => sorted[Math.round(share * (sorted.length - 1))] as number;
  return { low: at(0.025), high: at(0.975) };
}
