import { expect, test } from 'vitest';
import { nextFreeName, proposedName } from './names.ts';

test('the next name that is free', () => {
  expect(nextFreeName('M7', new Set(['M7', 'M8']))).toBe('M9');
  expect(nextFreeName('box', new Set(['box']))).toBe('box_2');
  expect(nextFreeName('K_pos', new Set(['K_pos', 'K_pos_2']))).toBe('K_pos_3');
});
test('a name after the builder’s own fashion', () => {
  expect(proposedName('battery_module', [{ name: 'M1', kind: 'battery_module' }, { name: 'M2', kind: 'battery_module' }])).toBe('M3');
  expect(proposedName('battery_module', [])).toBe('BM1');
  expect(proposedName('fuse', [{ name: 'F1', kind: 'hv_fuse' }])).toBe('F2');
});
