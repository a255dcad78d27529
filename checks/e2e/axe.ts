/** The automatic accessibility check of axe-core on an open page. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';

const axe = readFileSync(join(import.meta.dirname, '../../node_modules/axe-core/axe.min.js'), 'utf8');

export interface Broken { readonly rule: string; /** of each place, as HTML */ readonly places: readonly string[]; /** of the first place, what would mend it */ readonly why: string }

/**
 * @param where  what is looked at: a context of axe-core, or a selector of one element; absent: the whole page
 * @param only   these rules; absent: all
 */
export async function brokenRules(page: Page, { where, only }: { readonly where?: string | { readonly exclude: readonly (readonly string[])[] } | undefined; readonly only?: readonly string[] | undefined } = {}): Promise<readonly Broken[]> {
  await page.evaluate(`window.axe === undefined && (() => { ${axe} })()`);
  const context = where === undefined ? 'document' : typeof where === 'string' ? `document.querySelector('${where}')` : JSON.stringify(where);
  const options = JSON.stringify({ resultTypes: ['violations'], ...(only === undefined ? {} : { runOnly: only }) });
  return page.evaluate<Broken[]>(`axe.run(${context}, ${options}).then(({ violations }) => violations.map(({ id, nodes }) => ({ rule: id, places: nodes.map(({ html }) => html), why: nodes[0].failureSummary })))`);
}

/** By night nothing else of a drawing differs. */
export const aboutColours = ['color-contrast', 'link-in-text-block'];

/** All rules by day, then `only` by night (absent: all again). The page follows the machine, and is left by day. */
export async function brokenByDayAndNight(page: Page, { where, only }: NonNullable<Parameters<typeof brokenRules>[1]> = {}): Promise<readonly Broken[]> {
  const byDay = await brokenRules(page, { where });
  await page.emulateMedia({ colorScheme: 'dark' });
  await page.locator('html[data-theme="blueprint"]').waitFor();
  const byNight = await brokenRules(page, { where, only });
  await page.emulateMedia({ colorScheme: 'light' });
  await page.locator('html[data-theme="paper"]').waitFor();
  return [...byDay, ...byNight.map(({ rule, ...rest }) => ({ rule: `${rule} by night`, ...rest }))];
}

/** Rule, how many places, and the first of them. */
export const inOneLine = ({ rule, places, why }: Broken): string => `${rule} x${places.length}: ${places[0]!.slice(0, 200)} ${why.replace(/\s+/g, ' ').slice(0, 200)}`;
