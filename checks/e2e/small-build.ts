/** A build so small that it is analysed at once: three modules, a contactor, two runs. */
export const small = `halfshaft: 1
name: Small van   # a comment that stays
vehicle:
  wheelbase: 2.70 m ±5 mm measured
  front_track: 1.51 m ±5 mm measured
  rear_track: 1.53 m ±5 mm measured
  front_axle_load: 748 kg ±4 measured
  rear_axle_load: 517 kg ±4 measured
cells:
  reclaimed: { chemistry: nmc, capacity: 62 Ah ±3 measured, resistance: 0.95 mΩ ±15 % measured }
stock:
  hv50: { kind: cable, conductor_area: 50 mm² label, insulation: silicone_180, outside_diameter: 16.4 mm ±0.3 measured, voltage_rating: 1000 V label }
parts:
  M1: { kind: battery_module, cell: reclaimed, series: 12, measured_voltage: 47.92 V ±0.03 measured,
        mass: 25.3 kg ±0.2 measured, size: 590 x 225 x 110 mm measured, at: [1040, -130, 262 mm ±10 measured] }
  M2: { kind: battery_module, cell: reclaimed, series: 12, mass: 25.2 kg ±0.2 measured, size: 590 x 225 x 110 mm measured, at: [1660, -130, 262 mm ±10 measured] }
  M3: { kind: battery_module, cell: reclaimed, series: 12, mass: 25.4 kg ±0.2 measured, size: 590 x 225 x 110 mm measured, at: [1660, 330, 262 mm ±10 measured] }
  K1: { kind: contactor, rating: 250 A label, voltage_rating: 450 V label, coil_voltage: 12 V label, coil_current: 0.42 A ±0.02 measured, mass: 0.43 kg measured, size: 64 x 81 x 72 mm measured, at: [720, -450, 265 mm ±10 measured] }
runs:
  W1: { from: M1.pos, to: M2.neg, stock: hv50, length: 0.5 m measured }
  W2: { from: M2.pos, to: M3.neg, stock: hv50, length: 0.5 m measured }
modes:
  drive: { set: { K1: { pulling_in: no } } }
`;
