import { expect, it } from 'vitest';
import { area } from '../frame/page-size.ts';
import { zoneOf } from './zone.ts';

it('names the zones as the frame counts them', () => {
  expect(zoneOf(0, 0)).toBe('A1');
  // the middle of the page is the border between columns 4 and 5 and between rows C and D
  expect(zoneOf(210 - area.x - 1, 148.5 - area.y - 1)).toBe('C4');
  expect(zoneOf(210 - area.x + 1, 148.5 - area.y + 1)).toBe('D5');
  expect(zoneOf(area.width, area.height)).toBe('E8');
});
