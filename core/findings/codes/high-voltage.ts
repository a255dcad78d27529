/** Findings of the subject high-voltage. */
import type { CodeRow } from '../code-row.ts';

export const highVoltageCodes: readonly CodeRow[] = [];
