/** The builder's hands: while they type or point, whatever can wait waits, and the next number finds the machine free. */

export interface Hands {
  /** Until nothing was touched for so long [ms]; at once when that is so already. */
  readonly rested: (rest: number) => Promise<void>;
  /** @returns takes it back */
  readonly onMove: (hear: () => void) => () => void;
}

const TOUCHES = ['keydown', 'input', 'pointerdown'] as const;

/** @param target  where touches arrive: the window */
export function handsOn(target: EventTarget): Hands {
  let moved = -Infinity;
  const hearers = new Set<() => void>();
  const move = (): void => { moved = performance.now(); hearers.forEach((hear) => hear()); };
  for (const touch of TOUCHES) target.addEventListener(touch, move, { capture: true, passive: true });
  return {
    rested: async (rest) => {
      for (;;) {
        const left = moved + rest - performance.now();
        if (!(left > 0)) return;
        await new Promise((resolve) => { setTimeout(resolve, left); });
      }
    },
    onMove: (hear) => { hearers.add(hear); return () => hearers.delete(hear); },
  };
}
