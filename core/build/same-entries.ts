/** Whether two maps have the same names in the same order with values that are the same. The order counts: lists on sheets and names of strings follow it. */
export function sameEntries<V>(a: ReadonlyMap<string, V>, b: ReadonlyMap<string, V>, same: (a: V, b: V) => boolean): boolean {
  if (a === b) return true;
  if (a.size !== b.size) return false;
  const others = b.entries();
  for (const [name, value] of a) {
    const [otherName, other] = others.next().value as [string, V];
    if (name !== otherName || (value !== other && !same(value, other))) return false;
  }
  return true;
}
