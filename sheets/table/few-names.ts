/** A list of names that stays short enough for a cell. The rest must stand in full elsewhere on the same sheet or its file. */
export function fewNames(names: readonly string[], most = 20): string {
  return names.length <= most + 1 ? names.join(', ') : `${names.slice(0, most).join(', ')} and ${names.length - most} more`;
}
