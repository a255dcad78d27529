/**
 * Published component data against what the low-voltage handbook rows make of the same part.
 * Source: fuse maker's data sheet, large blade fuse of 40 A to ISO 8820-3 (75 mV at rating, 1.4 mΩ cold, 1000 A at 32 V for blades);
 *         relay makers' component data, 12 V coils: 300 Ω, 7 V at most, 0.5 V at least; and 144 Ω, 9 V at most, 1.2 V at least, 15 ms.
 * Read from the project's reference notes, sections 4 and 9 (the pages themselves were not seen again).
 * Tolerance: the published value must lie within the row's range; a range is what the handbook claims.
 */
import { describe, expect, it } from 'vitest';
import { lowVoltageRows } from '../../catalogue/low-voltage.ts';
import { handbookValue } from '../../core/build/handbook-value.ts';
import { fuse } from '../../core/kinds/fuse.ts';
import { relay } from '../../core/kinds/relay.ts';
import type { QuantityName } from '../../core/quantity/quantity-table.ts';
import { element, elementsOf } from '../fixtures/part-on-bench.ts';

const catalogue = { rows: new Map(lowVoltageRows.map((row) => [row.key, row])), tables: new Map() };
const within = (key: string, quantity: QuantityName, published: number): void => {
  const { low, high } = handbookValue(catalogue, key, quantity);
  expect(published, key).toBeGreaterThanOrEqual(low);
  expect(published, key).toBeLessThanOrEqual(high);
};

describe('a 40 A large blade fuse', () => {
  it('drops what the data sheet says, within the handbook range', () => within('fuse.voltage_drop', 'voltage', 0.075));
  it('clears what the data sheet says', () => within('fuse.breaking_capacity', 'current', 1000));
  it('has a working resistance above its cold one, and the one its own drop gives', () => {
    const link = element(elementsOf(fuse, { rating: 40, style: 'maxi', voltage_drop: 0.075 }), 'link');
    if (link.type !== 'switch') throw new Error('not a switch');
    expect(link.resistance).toBeCloseTo(0.075 / 40, 9);
    expect(link.resistance).toBeGreaterThan(1.4e-3);
  });
});

describe('a 12 V relay coil', () => {
  it.each([[300, 0.48], [144, 1.0]])('of %f Ω takes the published power of %f W', (resistance, power) => {
    within('relay.coil_power', 'power', power);
    const coil = element(elementsOf(relay, { rating: 30, coil_voltage: 12, coil_power: power }), 'coil');
    if (coil.type !== 'resistor') throw new Error('not a resistor');
    expect(coil.resistance).toBeCloseTo(resistance, 6);
  });
  it.each([7, 9])('pulls in at the published %f V', (volts) => within('relay.pick_up_share', 'ratio', volts / 12));
  it.each([0.5, 1.2])('lets go at the published %f V at the latest', (volts) => within('relay.drop_out_share', 'ratio', volts / 12));
  it('moves its contact within the published 15 ms', () => within('relay.operate_time', 'time', 0.015));
});
