import { describe, expect, it } from 'vitest';
import { quantities } from '../../core/quantity/quantity-table.ts';
import type { QuantityName } from '../../core/quantity/quantity-table.ts';
import { choiceOf, readPreference, unitsFor } from './unit-preference.ts';

describe('the preferred units', () => {
  it('follow the file until a system is chosen', () => {
    expect(choiceOf({ system: 'file', byQuantity: {} }, 'imperial')).toEqual({ system: 'imperial' });
    expect(choiceOf({ system: 'metric', byQuantity: { mass: 'lb' } }, 'imperial')).toEqual({ system: 'metric', byQuantity: { mass: 'lb' } });
  });
  it('drop what is no unit of the quantity, or no quantity', () => {
    expect(readPreference({ system: 'neither', byQuantity: { mass: 'lb', length: 'lb', beauty: 'kg' } })).toEqual({ system: 'file', byQuantity: { mass: 'lb' } });
    expect(readPreference('metric')).toBeUndefined();
  });
  it('can be chosen for every quantity', () => {
    expect((Object.keys(quantities) as QuantityName[]).filter((name) => unitsFor(name).length === 0)).toEqual([]);
  });
});
