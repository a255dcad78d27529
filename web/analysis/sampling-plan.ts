/** How many draws, in what steps, and what the screen and the worker that draws say to each other. */
import type { Chances } from './protocol.ts';

export const DRAWS = 400;
/** draws between two looks at what has arrived: an edit shares the processor for so long; divides every step */
export const HANDFUL = 2;
/** after so many draws the chances are worked out */
export const STEPS: readonly number[] = [100, 200, 400];
/** The same as the command line uses, so that both say the same. */
export const SEED = 1;
/** a text to draw for; the word to stop; the word to wait for so long [ms] and go on */
export type ToSampling = { readonly id: number; readonly text: string } | { readonly id: number } | { readonly wait: number };
export type FromSampling = { readonly id: number; readonly chances: Chances } | { readonly id: number; readonly error: string };
