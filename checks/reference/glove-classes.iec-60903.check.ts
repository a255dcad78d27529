/**
 * Insulating gloves: highest voltages of use by class, as ASTM D120 and IEC 60903 print them (seen in secondary sources, see
 * SOURCES of the project's reference tables).
 */
import { describe, expect, it } from 'vitest';
import { gloveClasses, gloveClassFor } from '../../core/physics/glove-class.ts';

describe('glove classes', () => {
  it('are the printed rows', () => {
    expect(gloveClasses.map(({ name, alternatingVoltage, directVoltage }) => [name, alternatingVoltage, directVoltage])).toEqual([
      ['00', 500, 750], ['0', 1000, 1500], ['1', 7500, 11_250], ['2', 17_000, 25_500], ['3', 26_500, 39_750], ['4', 36_000, 54_000],
    ]);
  });
  it('go up at the border, not before', () => {
    expect(gloveClassFor(750)?.name).toBe('00');
    expect(gloveClassFor(751)?.name).toBe('0');
    expect(gloveClassFor(54_001)).toBeUndefined();
  });
});
