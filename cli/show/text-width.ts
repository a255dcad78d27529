/** How wide text is set: as the terminal is, within what reads well [columns]. */
export function textWidth(most = 110): number {
  return Math.min(most, Math.max(40, process.stdout.columns ?? 100));
}
