/** Findings of the subject low-voltage. */
import type { CodeRow } from '../code-row.ts';

export const lowVoltageCodes: readonly CodeRow[] = [];
