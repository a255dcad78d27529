/** The head of an electrical page in data, and the height that it takes. */
import { area } from '../frame/page-size.ts';
import { heightOf, letterSize } from '../lettering/letter-size.ts';
import { widthOf, wrap } from '../lettering/measure.ts';
import { NAME_STEP, STEP } from './make-mark.ts';

export interface HeadValues { readonly state: string; readonly wrong: readonly string[]; readonly legend: string }

/** Width of the title of the state [mm]. */
export const stateWidth = (state: string): number => Math.min(area.width * 0.45, widthOf(`State: ${state}`, letterSize.head, 'strong') + 8);

/** A legend of two lines: no less is kept, so that the length of a state's name does not move the drawing [mm]. */
const TWO_LINES = 2 * STEP;

/** Height of the title of the state and of the legend beside it [mm]. */
export function titleHeight({ state, legend }: HeadValues): number {
  const left = stateWidth(state);
  return Math.max(heightOf(`State: ${state}`, left, 'head', 'strong'), heightOf(legend, area.width - left - 2, 'small'));
}

/** Height that it takes [mm]. */
export function headHeight(head: HeadValues): number {
  return Math.max(titleHeight(head), TWO_LINES) + head.wrong.reduce((sum, text) => sum + wrap(text, area.width - 8, letterSize.body).length * NAME_STEP, 0) + 5;
}
