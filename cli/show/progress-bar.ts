/** A bar that fills while draws are made. */
import type { Terminal } from '../terminal.ts';

/** Nothing is shown for what is over in a second, nor where it could not be written over. */
export function progressBar({ warn, isErrorScreen }: Terminal, total: number): (done: number) => void {
  if (!isErrorScreen) return () => undefined;
  const start = performance.now();
  let shown = -1;
  return (done) => {
    const percent = Math.floor((done / total) * 100);
    if (done >= total) { if (shown >= 0) warn('\r\u001b[K'); return; }
    if (percent === shown || performance.now() - start < 1000) return;
    shown = percent;
    const filled = Math.round(percent / 4);
    warn(`\rdrawing ${'█'.repeat(filled)}${'░'.repeat(25 - filled)} ${percent} % of ${total}`);
  };
}
