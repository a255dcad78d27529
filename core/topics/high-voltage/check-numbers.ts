/** The optional fields of a check. */

export function numbers(value: number | undefined, limit: number | undefined): { value: number | undefined; limit: number | undefined } {
  return { value, limit };
}

/** @param needs  paths of missing values; a check with any is unknown */
export function needsOf(needs: readonly string[]): { needs: readonly string[] | undefined } {
  return { needs: needs.length > 0 ? needs : undefined };
}
