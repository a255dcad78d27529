/** The optional fields of a check, left out (not set to undefined) when there is nothing to put in. */

export function numbers(value: number | undefined, limit: number | undefined): { value?: number; limit?: number } {
  return { ...(value === undefined ? {} : { value }), ...(limit === undefined ? {} : { limit }) };
}

/** @param needs  paths of missing values; a check with any is unknown */
export function needsOf(needs: readonly string[]): { needs?: readonly string[] } {
  return needs.length > 0 ? { needs } : {};
}
