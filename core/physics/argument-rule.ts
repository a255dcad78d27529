/**
 * Rules that the caller must keep. Breaking one is a programmer's error, so these throw and name the broken rule.
 * They stand in the innermost loops: `for in` makes no list of what it looks at.
 */

/** Throws unless every named value is finite and > 0. */
export function requirePositive(values: Readonly<Record<string, number>>): void {
  for (const name in values) {
    const value = values[name]!;
    if (!(Number.isFinite(value) && value > 0)) throw new RangeError(`${name} must be finite and > 0, got ${value}`);
  }
}

/** Throws unless every named value is finite and >= 0. */
export function requireNotNegative(values: Readonly<Record<string, number>>): void {
  for (const name in values) {
    const value = values[name]!;
    if (!(Number.isFinite(value) && value >= 0)) throw new RangeError(`${name} must be finite and >= 0, got ${value}`);
  }
}

/** Throws unless every named value is finite. */
export function requireFinite(values: Readonly<Record<string, number>>): void {
  for (const name in values) {
    const value = values[name]!;
    if (!Number.isFinite(value)) throw new RangeError(`${name} must be finite, got ${value}`);
  }
}
