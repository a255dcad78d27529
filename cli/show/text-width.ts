/** How wide text is set: as the terminal is, within what reads well [columns]. */
import type { Terminal } from '../terminal.ts';

export function textWidth({ columns }: Terminal, most = 110): number {
  return Math.min(most, Math.max(40, columns ?? 100));
}
