/** Names: how a key of the file is said, and which name is free. */

/** `measured_voltage` -> `measured voltage` */
export const inWords = (key: string): string => key.replaceAll('_', ' ');

/** `M7` -> `M8`, `hv50` -> `hv51`, `box` -> `box_2`: the next one that nobody has. */
export function nextFreeName(name: string, taken: ReadonlySet<string>): string {
  const numbered = /^(.*?)(\d+)$/.exec(name);
  const stem = numbered?.[1] ?? `${name}_`;
  for (let number = numbered ? Number(numbered[2]) + 1 : 2; ; number++) if (!taken.has(`${stem}${number}`)) return `${stem}${number}`;
}

/** A name as the builder has named parts of this kind so far, else the initials of the kind: `battery_module` -> `BM1`. */
export function proposedName(kind: string, parts: readonly { readonly name: string; readonly kind: string }[]): string {
  const stem = usualStem(parts.filter((part) => part.kind === kind)) ?? kind.split('_').map((word) => word[0]?.toUpperCase() ?? '').join('');
  return nextFreeName(`${stem}0`, new Set(parts.map(({ name }) => name)));
}

/** As the runs are named so far: `W12` behind `W11`. */
export function proposedRunName(runs: readonly { readonly name: string }[]): string {
  return nextFreeName(`${usualStem(runs) ?? 'W'}0`, new Set(runs.map(({ name }) => name)));
}

/** What most of the numbered names begin with. */
function usualStem(named: readonly { readonly name: string }[]): string | undefined {
  const stems = new Map<string, number>();
  for (const { name } of named) {
    const stem = /^(.*?)\d+$/.exec(name)?.[1];
    if (stem !== undefined && stem !== '') stems.set(stem, (stems.get(stem) ?? 0) + 1);
  }
  return [...stems].sort((a, b) => b[1] - a[1])[0]?.[0];
}
