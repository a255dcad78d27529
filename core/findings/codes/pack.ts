/** Findings of the subject pack. */
import type { CodeRow } from '../code-row.ts';

export const packCodes: readonly CodeRow[] = [];
