/** How large a build file may be: it is text for people, so what is larger was named by mistake. [bytes] */
export const LARGEST_BUILD = 4_000_000;

/** What is wrong with a file of this size; undefined when nothing is. */
export function whyTooLarge(file: string, size: number): string | undefined {
  return size > LARGEST_BUILD ? `${file} is ${(size / 1e6).toFixed(1)} MB; a build file is text of at most ${LARGEST_BUILD / 1e6} MB.` : undefined;
}
