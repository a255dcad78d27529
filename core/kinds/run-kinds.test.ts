import { describe, expect, it } from 'vitest';
import { benchRows } from '../../checks/fixtures/high-voltage-bench.ts';
import { leastValues, type Plain } from '../../checks/fixtures/example-values.ts';
import type { Conductor } from '../part/run-kind.ts';
import { runKinds } from './run-kinds.ts';

const conductorOf = (kind: string, fields: Plain): Conductor => {
  const runKind = runKinds.get(kind)!;
  return runKind.conductor({ ...leastValues(runKind.fields, benchRows), ...fields } as never);
};

describe('a cable', () => {
  it('has the resistance of IEC 60228 class 5 at a standard size', () => {
    // IEC 60228 table 3, plain copper: 35 mm² 0.554, 50 mm² 0.386 Ω/km (read from the project's reference notes)
    expect(conductorOf('cable', { conductor_area: 35e-6 }).resistancePerLength * 1e3).toBeCloseTo(0.554, 6);
    expect(conductorOf('cable', { conductor_area: 50e-6 }).resistancePerLength * 1e3).toBeCloseTo(0.386, 6);
  });
  it('takes a measured resistance over the table', () => expect(conductorOf('cable', { conductor_area: 50e-6, resistance_per_length: 4e-4 }).resistancePerLength).toBe(4e-4));
  it('takes a printed temperature over that of its insulation', () => {
    expect(conductorOf('cable', { insulation: 'pvc' }).temperatureRating).toBeCloseTo(343.15, 9);
    expect(conductorOf('cable', { insulation: 'pvc', temperature_rating: 378.15 }).temperatureRating).toBe(378.15);
  });
  it('has the short-circuit temperatures of BS 7671 tables 54.2 to 54.4', () => {
    // PVC 160 °C, XLPE 250 °C, silicone 350 °C (read from the project's reference notes)
    expect(['pvc', 'xlpe', 'silicone_180'].map((insulation) => Math.round(conductorOf('cable', { insulation }).shortCircuitTemperature - 273.15))).toEqual([160, 250, 350]);
  });
  it('never has strands wider than its jacket', () => {
    const { shape } = conductorOf('cable', { conductor_area: 50e-6, outside_diameter: 0.008 });
    expect(shape).toMatchObject({ conductorDiameter: 0.008, outsideDiameter: 0.008 });
  });
});

describe('a wire', () => {
  it('is as thick as its strands and twice its wall when its diameter is not given', () => {
    // 2.5 mm² at 72 % fill: 2.103 mm; with 2 x 0.35 mm 2.803 mm
    const { shape } = conductorOf('wire', { conductor_area: 2.5e-6, insulation: 'pvc_105' });
    expect(shape.form === 'round' && shape.outsideDiameter * 1e3).toBeCloseTo(2.803, 2);
  });
});

describe('a busbar', () => {
  it('has the resistance of solid annealed copper, not of strands', () => {
    // IEC 60028: 17.241 nΩ.m; 20 x 3 mm -> 0.28735 mΩ/m. 20 x 2.5 mm is 50 mm² and must not take the class 5 row
    expect(conductorOf('busbar', { width: 0.02, thickness: 0.003, insulation: 'bare' }).resistancePerLength * 1e3).toBeCloseTo(0.28735, 5);
    expect(conductorOf('busbar', { width: 0.02, thickness: 0.0025, insulation: 'bare' }).resistancePerLength * 1e3).toBeCloseTo(0.34482, 5);
  });
  it('has no insulation to hold heat back when it is bare', () => expect(conductorOf('busbar', { insulation: 'bare' }).insulationThermalResistivity).toBeUndefined());
});
