/**
 * One thing that may be wrong with the car, with words for the builder.
 */
import type { FaultChange } from './fault-change.ts';

export type FaultSort =
  /** declared by the part's kind */
  | 'part'
  /** a run: parted, a bad joint, chafed on metal, chafed against a live wire */
  | 'run_open' | 'run_resistive' | 'run_to_chassis' | 'run_to_supply' | 'run_to_run'
  /** two pins of a plug that touch */
  | 'pins_touch'
  /** two runs in each other's places at one end */
  | 'swapped'
  /** the file, or the sheet that it came from, says otherwise than the thing is */
  | 'documentation'
  /** fed and joined, and still says nothing on the bus or does not follow */
  | 'silent'
  /** 12 V battery nearly empty */
  | 'flat'
  /** two at once */
  | 'pair'
  /** the car as the file has it */
  | 'none'
  /** whatever is not in the list */
  | 'unlisted';

/** The car as the file has it. */
export const NOTHING_WRONG: Hypothesis = { id: 'none', sort: 'none', cause: 'none', about: [], path: '', words: '', changes: [], silent: [], weight: 1, disturbed: [], confirm: '', mend: '' };

export interface Hypothesis {
  /** `K_pos.coil_open`, `W5.open`; the same from edit to edit as long as names stay */
  readonly id: string;
  readonly sort: FaultSort;
  /** what is the same thing to a builder: one bad joint, whatever its ohms */
  readonly cause: string;
  /** parts and runs it is about; the first gives the place */
  readonly about: readonly string[];
  /** path in the build file */
  readonly path: string;
  /** what is wrong, as a sentence without a full stop */
  readonly words: string;
  readonly changes: readonly FaultChange[];
  /** parts that are not heard and do not follow messages on the bus */
  readonly silent: readonly string[];
  /** relative to the others; common practice, no source */
  readonly weight: number;
  /** how many things of the build stand disturbed there */
  readonly disturbed: readonly string[];
  /** how to see that it is this */
  readonly confirm: string;
  /** how to put it right */
  readonly mend: string;
}
