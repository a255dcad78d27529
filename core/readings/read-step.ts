/** A step in which something is read, of whichever procedure. */
import type { PowerUpStep } from '../power-up/step.ts';

export type ReadStep = Omit<PowerUpStep, 'phase' | 'suspects'> & Partial<Pick<PowerUpStep, 'suspects'>> & {
  /** instead of the state, where a step stays done although the order around it has changed */
  readonly restsOnState?: string;
  /** the state in words, where those of `state` would say too much */
  readonly stateSays?: string;
};
