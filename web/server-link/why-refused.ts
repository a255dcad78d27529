/** Why the program that keeps the folder did not do what it was asked, for the builder. */

/** Nobody answered at all. */
export const AWAY = 'the program that keeps the file does not answer';

/**
 * @param longest   letters of its own words that are shown
 * @param otherwise when it says nothing; absent: the number of its answer
 */
export async function whyRefused(answer: Response, longest: number, otherwise = `the answer was ${answer.status}`): Promise<string> {
  if (answer.status === 401 || answer.status === 403) return 'this page is no longer allowed in: open it again from the address that halfshaft printed';
  return (await answer.text()).trim().slice(0, longest) || otherwise;
}
