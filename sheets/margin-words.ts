/** Margins as shares of their limits, as the sheets print them. */

/** Cautious, in two digits. */
export const marginDigits = { digits: 2, rounding: 'down' } as const;

/** Beyond ten times the limit a share says nothing more: what is said instead. */
export const farMargin = (margin: number): string | undefined => (margin < -10 ? 'far beyond' : margin > 10 ? 'far within' : undefined);
