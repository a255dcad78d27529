import { describe, expect, it } from 'vitest';
import { blueprint, contrast, paper } from './palette.ts';
import type { Palette } from './palette.ts';

describe('contrast', () => {
  // WCAG 2.2, definition of contrast ratio; #767676 on white is the well-known grey just above 4.5:1
  it('is 21 for black on white and 4.54 for #767676', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
    expect(contrast('#ffffff', '#767676')).toBeCloseTo(4.54, 2);
  });
});

describe.each([paper, blueprint])('the colours of $name', (palette: Palette) => {
  const letters = ['ink', 'muted', 'highVoltage', 'lowVoltage', 'signal', 'coolant', 'red', 'amber', 'green', 'mark'] as const;
  it.each(letters)('%s can be read on the sheet and on a wash (WCAG AA: 4.5)', (name) => {
    expect(contrast(palette[name], palette.sheet)).toBeGreaterThanOrEqual(4.5);
    expect(contrast(palette[name], palette.wash)).toBeGreaterThanOrEqual(4.5);
  });
});
