/** The first study of a page, made by the program that serves it. */

/**
 * Longest text that a page is helped with [bytes]: of a longer one its own worker would be long in catching up, and whatever is asked of it next, the
 * card of a part say, would wait for that.
 */
export const LONGEST_HELPED = 100_000;

/**
 * Whoever can make a study of a text sooner than a page that has just been opened: its program is read, and it has seen the build before.
 * The server knows nothing of what is in a study.
 */
export interface StudyMaker {
  /** the build that will be asked about: works ahead */
  readonly begin: (text: string) => void;
  /** @param asked  JSON, as the page sent it @returns the study as text; rejects when none can be made of that */
  readonly of: (asked: string) => Promise<string>;
}
