/**
 * A build of some five hundred parts, for what must stay quick however large a car is: one long string of small modules, a drive unit,
 * and rail after rail of fused 12 V consumers. Valid and plain; no car is like it.
 */

export interface LargeBuild {
  /** modules in the string, 2 or more */
  readonly modules?: number;
  /** consumers on the 12 V side; each brings its fuse and its switch, every fourth a ground stud */
  readonly consumers?: number;
}

/** Positions are on a grid, so that no part lies in another [mm]. */
const GRID = 160;
const RAIL_STUDS = 12;

/** The text of the build file. The same numbers give the same text. */
export function largeBuild({ modules = 48, consumers = 130 }: LargeBuild = {}): string {
  let placed = 0;
  const at = (): string => {
    const place = placed++;
    return `at: [${GRID * (place % 25)}, ${GRID * (Math.floor(place / 25) % 10) - 720}, ${300 + GRID * Math.floor(place / 250)} mm ±20 measured]`;
  };
  const small = (mass: string): string => `mass: ${mass}, size: 30 x 30 x 30 mm, ${at()}`;
  const big = (mass: string): string => `mass: ${mass}, size: 120 x 120 x 120 mm, ${at()}`;
  const parts: string[] = [];
  const runs: string[] = [];
  const part = (name: string, text: string): void => { parts.push(`  ${name}: { ${text} }`); };
  const run = (name: string, from: string, to: string, text: string): void => { runs.push(`  ${name}: { from: ${from}, to: ${to}, ${text} }`); };
  const two = (number: number): string => String(number).padStart(3, '0');

  // high voltage: the string, its contactors, and what hangs on it
  const cells = 2;
  for (let n = 1; n <= modules; n++) part(`M${two(n)}`, `kind: battery_module, cell: pouch, series: ${cells}, parallel: 2, measured_voltage: ${(7.4 + 0.002 * (n % 5)).toFixed(3)} V ±0.01 measured, ${big('6.1 kg ±0.1 measured')}`);
  const middle = Math.floor(modules / 2);
  for (let n = 1; n < modules; n++) if (n !== middle) run(`H${two(n)}`, `M${two(n)}.pos`, `M${two(n + 1)}.neg`, 'stock: bar, length: 90 mm measured');
  const volts = Math.ceil((modules * cells * 4.2 * 1.05) / 50) * 50;
  part('SD', `kind: service_disconnect, rating: 350 A label, voltage_rating: ${volts} V label, fuse_rating: 250 A label, fuse_style: full_range, breaking_capacity: 20 kA datasheet, time_constant_rating: 3 ms datasheet, melting_energy: 12 kA²s datasheet, clearing_energy: 45 kA²s datasheet, ${big('0.85 kg')}`);
  run('HM1', `M${two(middle)}.pos`, 'SD.in', 'stock: hv50, length: 0.6 m ±5 cm measured');
  run('HM2', 'SD.out', `M${two(middle + 1)}.neg`, 'stock: hv50, length: 0.6 m ±5 cm measured');
  const contactor = `kind: contactor, rating: 250 A label, voltage_rating: ${volts} V label, breaking_current: 2000 A datasheet, making_current: 650 A datasheet, coil_voltage: 12 V label, coil_current: 0.42 A ±0.02 measured, suppression: internal`;
  part('K_neg', `${contactor}, ${big('0.43 kg measured')}`);
  part('K_pos', `${contactor}, ${big('0.43 kg measured')}`);
  part('F_main', `kind: hv_fuse, rating: 200 A label, style: full_range, voltage_rating: ${volts} V label, breaking_capacity: 20 kA datasheet, time_constant_rating: 3 ms datasheet, melting_energy: 9 kA²s datasheet, clearing_energy: 36 kA²s datasheet, ${big('0.31 kg measured')}`);
  part('F_dcdc', `kind: hv_fuse, rating: 20 A label, style: full_range, voltage_rating: ${volts} V label, breaking_capacity: 20 kA datasheet, time_constant_rating: 3 ms datasheet, melting_energy: 0.1 kA²s datasheet, clearing_energy: 0.5 kA²s datasheet, ${small('0.1 kg measured')}`);
  part('PRE', `kind: precharge_resistor, resistance: 100 Ω ±5 % label, pulse_energy: 900 J datasheet, continuous_power: 100 W label, rating: 10 A label, voltage_rating: ${volts} V label, breaking_current: 10 A datasheet, making_current: 20 A datasheet, coil_voltage: 12 V label, coil_current: 0.25 A measured, suppression: diode, ${big('0.29 kg measured')}`);
  part('J_pos', `kind: junction, studs: 4, pole: positive, rating: 400 A label, voltage_rating: 1000 V label, ${big('0.42 kg measured')}`);
  part('J_neg', `kind: junction, studs: 4, pole: negative, rating: 400 A label, voltage_rating: 1000 V label, ${big('0.42 kg measured')}`);
  part('DU', `kind: drive_unit, link_capacitance: 0.88 mF ±10 % label, bleeder: 47 kΩ ±5 % measured, maximum_voltage: ${volts} V label, minimum_voltage: 150 V datasheet, ${big('84 kg ±1 measured')}`);
  part('DCDC', `kind: dcdc, output_voltage: 13.8 V ±0.1 measured, output_current: 220 A label, started_by: high_voltage, maximum_voltage: ${volts} V label, minimum_voltage: 150 V datasheet, y_capacitance: 47 nF label, ${big('5.1 kg measured')}`);
  run('HN1', 'M001.neg', 'K_neg.in', 'stock: hv50, length: 0.8 m ±5 cm measured');
  run('HN2', 'K_neg.out', 'J_neg.stud_1', 'stock: hv50, length: 1.6 m ±5 cm measured');
  run('HP1', `M${two(modules)}.pos`, 'F_main.in', 'stock: hv50, length: 0.4 m ±2 cm measured');
  run('HP2', 'F_main.out', 'K_pos.in', 'stock: bar, length: 60 mm measured');
  run('HP3', 'K_pos.out', 'J_pos.stud_1', 'stock: bar, length: 60 mm measured');
  run('HP4', 'F_main.out', 'PRE.in', 'stock: hv1, length: 18 cm measured');
  run('HP5', 'PRE.out', 'J_pos.stud_1', 'stock: hv1, length: 16 cm measured');
  run('HD1', 'J_pos.stud_2', 'DU.pos', 'stock: hv50, length: 2.2 m ±5 cm measured');
  run('HD2', 'J_neg.stud_2', 'DU.neg', 'stock: hv50, length: 2.2 m ±5 cm measured');
  run('HC1', 'J_pos.stud_3', 'F_dcdc.in', 'stock: bar, length: 50 mm measured');
  run('HC2', 'F_dcdc.out', 'DCDC.pos', 'stock: hv6, length: 1.0 m ±5 cm measured');
  run('HC3', 'J_neg.stud_3', 'DCDC.neg', 'stock: hv6, length: 1.0 m ±5 cm measured');

  // 12 V: battery, rails one behind the other, and on each stud a fuse, a switch and a consumer
  part('B12', `kind: battery_12v, chemistry: agm, nominal_voltage: 12 V label, capacity: 70 Ah label, state_of_charge: 90 % ±8 %, internal_resistance: 6 mΩ ±1 measured, ${big('19 kg measured')}`);
  part('F_bat', `kind: fuse, rating: 250 A label, style: mega, breaking_capacity: 3000 A datasheet, ${small('0.09 kg')}`);
  part('F_dc12', `kind: fuse, rating: 250 A label, style: mega, breaking_capacity: 3000 A datasheet, ${small('0.09 kg')}`);
  part('G_main', `kind: ground_stud, ${small('0.03 kg')}`);
  part('S_neg', `kind: switch, rating: 10 A label, ${small('0.1 kg')}`);
  part('S_pos', `kind: switch, rating: 10 A label, ${small('0.1 kg')}`);
  part('S_pre', `kind: switch, rating: 10 A label, ${small('0.1 kg')}`);
  part('S_coil', `kind: splice, wires: 4, ${small('0.01 kg')}`);
  part('F_coil', `kind: fuse, rating: 10 A label, style: blade, breaking_capacity: 1000 A datasheet, ${small('0.01 kg')}`);
  part('F_du', `kind: fuse, rating: 10 A label, style: blade, breaking_capacity: 1000 A datasheet, ${small('0.01 kg')}`);
  run('B1', 'B12.neg', 'G_main.stud', 'stock: lv50, length: 0.4 m measured');
  run('B2', 'B12.pos', 'F_bat.a', 'stock: lv50, length: 0.15 m measured');
  run('B3', 'DCDC.lv_pos', 'F_dc12.a', 'stock: lv50, length: 0.9 m measured');
  run('B4', 'DCDC.lv_neg', 'G_main.stud', 'stock: lv50, length: 0.4 m measured');
  const rails = Math.ceil((consumers + 4) / (RAIL_STUDS - 2));
  const studs: string[] = [];
  for (let n = 1; n <= rails; n++) {
    part(`BB${two(n)}`, `kind: junction, carries: low_voltage, pole: positive, studs: ${RAIL_STUDS}, rating: 300 A label, ${small('0.35 kg')}`);
    if (n > 1) run(`BR${two(n)}`, `BB${two(n - 1)}.stud_${RAIL_STUDS}`, `BB${two(n)}.stud_1`, 'stock: lv50, length: 0.3 m measured');
    for (let stud = 2; stud < RAIL_STUDS; stud++) studs.push(`BB${two(n)}.stud_${stud}`);
  }
  const stud = (): string => studs.shift() ?? 'BB001.stud_2';
  run('B5', 'F_bat.b', 'BB001.stud_1', 'stock: lv50, length: 0.9 m measured');
  run('B6', 'F_dc12.b', stud(), 'stock: lv50, length: 0.2 m measured');
  run('B7', stud(), 'F_coil.a', 'stock: lv4, length: 0.1 m measured');
  run('B8', stud(), 'F_du.a', 'stock: lv4, length: 0.1 m measured');
  run('B9', 'F_du.b', 'DU.supply', 'stock: lv2, length: 2 m measured');
  run('B10', 'DU.ground', 'G_main.stud', 'stock: lv2, length: 1 m measured');
  run('C0', 'F_coil.b', 'S_coil.w1', 'stock: lv2, length: 0.3 m measured');
  for (const [name, coil, wire] of [['neg', 'K_neg', 'w2'], ['pos', 'K_pos', 'w3'], ['pre', 'PRE', 'w4']] as const) {
    run(`C1_${name}`, `S_coil.${wire}`, `S_${name}.a1`, 'stock: lv2, length: 1 m measured');
    run(`C2_${name}`, `S_${name}.b1`, `${coil}.coil_a`, 'stock: lv2, length: 2 m measured');
    run(`C3_${name}`, `${coil}.coil_b`, 'G_main.stud', 'stock: lv2, length: 2 m measured');
  }
  for (let n = 1; n <= consumers; n++) {
    const id = two(n);
    const isTold = n % 3 === 0;
    if (n % 4 === 1) part(`G${id}`, `kind: ground_stud, ${small('0.03 kg')}`);
    part(`F${id}`, `kind: fuse, rating: 5 A label, style: blade, breaking_capacity: 1000 A datasheet, ${small('0.01 kg')}`);
    part(`S${id}`, `kind: switch, ${isTold ? 'rest: closed, ' : ''}rating: 10 A label, ${small('0.05 kg')}`);
    part(`L${id}`, `kind: load, current: ${(0.3 + 0.05 * (n % 13)).toFixed(2)} A ±10 % measured, ${isTold ? 'runs: when_told, ' : ''}${small('0.3 kg')}`);
    run(`W1_${id}`, stud(), `F${id}.a`, 'stock: lv2, length: 0.1 m measured');
    run(`W2_${id}`, `F${id}.b`, `S${id}.a1`, `stock: lv2, length: ${(0.5 + 0.1 * (n % 17)).toFixed(1)} m ±5 cm measured`);
    run(`W3_${id}`, `S${id}.b1`, `L${id}.supply`, `stock: lv2, length: ${(0.4 + 0.1 * (n % 11)).toFixed(1)} m ±5 cm measured`);
    run(`W4_${id}`, `L${id}.ground`, `G${two(n - ((n - 1) % 4))}.stud`, 'stock: lv2, length: 0.5 m measured');
  }

  const told = (share: number): string[] => Array.from({ length: consumers }, (_, index) => index + 1).filter((n) => (n * 7) % 10 < share)
    .map((n) => (n % 3 === 0 ? `      L${two(n)}: { on: yes }` : `      S${two(n)}: { closed: yes }`));
  const closed = (...names: readonly string[]): string[] => names.map((name) => `      S_${name}: { closed: yes }`);
  const mode = (name: string, lines: readonly string[], set: readonly string[]): string[] => [`  ${name}:`, ...lines.map((line) => `    ${line}`), ...(set.length > 0 ? ['    set:', ...set] : [])];
  return [
    'halfshaft: 1', 'name: Large build', 'scenario: five hundred parts that no car has, to see that nothing slows down', '',
    'vehicle:', '  wheelbase: 4.0 m measured', '  front_track: 1.7 m measured', '  rear_track: 1.7 m measured', '  front_axle_load: 1500 kg ±10 measured', '  rear_axle_load: 1400 kg ±10 measured',
    '  front_axle_rating: 2200 kg label', '  rear_axle_rating: 2600 kg label', '  total_rating: 4500 kg label', '',
    'conditions:', '  ambient: 25 °C ±8', '  state_of_charge: 80 % ±10 %', '',
    'cells:', '  pouch: { chemistry: nmc, capacity: 50 Ah ±2 measured, resistance: 1.1 mΩ ±15 % measured, continuous_discharge: 100 A datasheet, peak_discharge: 250 A datasheet, continuous_charge: 50 A datasheet }', '',
    'stock:',
    '  hv50: { kind: cable, conductor_area: 50 mm² label, insulation: silicone_180, outside_diameter: 16.4 mm ±0.3 measured, voltage_rating: 1000 V label, screened: yes, colour: orange }',
    '  hv6: { kind: cable, conductor_area: 6 mm² label, insulation: xlpo_125, outside_diameter: 7.4 mm ±0.2 measured, voltage_rating: 1000 V label, screened: yes, colour: orange }',
    '  hv1: { kind: wire, conductor_area: 1.5 mm² label, insulation: silicone_180, voltage_rating: 1000 V label, colour: orange }',
    '  bar: { kind: busbar, width: 20 mm measured, thickness: 4 mm measured, insulation: heat_shrink, voltage_rating: 1000 V datasheet, colour: orange }',
    '  lv50: { kind: cable, conductor_area: 50 mm² label, insulation: pvc_105, outside_diameter: 13 mm ±0.2 measured }',
    '  lv4: { kind: wire, conductor_area: 4 mm² label, insulation: xlpe }',
    '  lv2: { kind: wire, conductor_area: 2.5 mm² label, insulation: xlpe }', '',
    'parts:', ...parts, '', 'runs:', ...runs, '',
    'modes:',
    ...mode('off', ['meaning: parked'], []),
    ...mode('precharge', ['meaning: the drive unit fills through the resistor', 'from: [off]', 'lasts: 0.6 s', 'every: 30 s'], closed('neg', 'pre')),
    ...mode('ready', ['meaning: both contactors closed', 'from: [precharge]'], [...closed('neg', 'pos'), ...told(3)]),
    ...mode('drive', ['meaning: a load that lasts', 'from: [ready]'], [...closed('neg', 'pos'), '      DU: { draw: 20 kW ±2 estimate }', ...told(7)]),
    ...mode('full_power', ['meaning: all that it gives', 'from: [ready]', 'lasts: 10 s', 'every: 120 s'], [...closed('neg', 'pos'), '      DU: { draw: 50 kW ±3 estimate }', ...told(9)]), '',
  ].join('\n');
}
