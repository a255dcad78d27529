/**
 * The one table of units: how each is printed, how else people write it, which quantities it serves, and its factor to SI.
 *
 * Invariants: SI value = number * factor + offset (offset only for °C and °F), save for AWG, which is a number on a scale
 * of its own (`wire-gauge.ts`); keys are unique; within one quantity no spelling means two units.
 *
 * Decided here:
 * - `°C` and `°F` are temperatures only. A difference is written in `K` (or `°C diff`, which is the same, or `°F diff`), so
 *   that a rise of 40 can never be taken for a temperature of 40. `K` serves both, as in SI.
 * - `bar`, `kPa`, `psi` alone are what a gauge shows, or a difference. Absolute pressure is always said: `bar abs`, `psia`.
 * - `gal`, `qt`, `fl oz` and `ton` alone are not accepted: US and UK (or metric) ones differ by 4 to 20 %. `gpm` is US.
 * - `kA²s` is a thousand A²s, as fuse data sheets mean it (common practice, no source), not (kA)²s, a million. It is read, never chosen.
 * - Capitals count (`mΩ` is not `MΩ`); harmless slips (`KW`, `kwh`, `RPM`) are listed as spellings, one by one.
 *
 * Source: NIST SP 811 (2008), appendix B.8 and B.9, for every factor marked so; the others follow from SI prefixes.
 * Checked: checks/reference/units.nist-sp-811.check.ts, checks/reference/awg.astm-b258.check.ts
 */
import type { QuantityName } from './quantity-table.ts';

export interface UnitRow {
  readonly key: string;
  /** as printed after a number; empty for a plain number */
  readonly printed: string;
  /** other accepted spellings. Points, dots, hyphens and spaces between factors, `^`, u for µ and ohm for Ω need no row of their own */
  readonly spellings: readonly string[];
  readonly serves: readonly QuantityName[];
  readonly factor: number;
  readonly offset: number;
  readonly scale: 'linear' | 'wire_gauge';
  readonly source: string;
}

const inch = 0.0254;
const foot = 0.3048;
const pound = 0.45359237;
const gravity = 9.80665;
const poundForce = pound * gravity;
const psi = poundForce / inch ** 2;
const gallonUs = 231 * inch ** 3;
const gallonUk = 4.54609e-3;
/** international table, 1055.055 852 62 J exact */
const btu = 1055.05585262;

const si = 'SI';
const b8 = (row: string): string => `NIST SP 811 B.8, ${row}`;

const pressureServed = ['pressure_gauge', 'pressure_difference'] as const;

const rows: readonly UnitRow[] = [
  unit('nm', ['length', 'coordinate'], 1e-9, si),
  unit('µm', ['length', 'coordinate'], 1e-6, si, ['micron', 'microns']),
  unit('mm', ['length', 'coordinate'], 1e-3, si, ['millimetre', 'millimetres', 'millimeter', 'millimeters']),
  unit('cm', ['length', 'coordinate'], 1e-2, si),
  unit('m', ['length', 'coordinate'], 1, si, ['metre', 'metres', 'meter', 'meters']),
  unit('km', ['length', 'coordinate'], 1e3, si),
  unit('in', ['length', 'coordinate'], inch, b8('inch'), ['"', '″', '”', "''", 'inch', 'inches', 'In', 'IN']),
  unit('ft', ['length', 'coordinate'], foot, b8('foot'), ["'", '′', '’', 'foot', 'feet', 'Ft', 'FT']),
  unit('yd', ['length', 'coordinate'], 0.9144, b8('yard'), ['yard', 'yards']),
  unit('mi', ['length', 'coordinate'], 1609.344, b8('mile'), ['mile', 'miles']),
  unit('mil', ['length', 'coordinate'], 2.54e-5, b8('mil'), ['mils', 'thou']),

  unit('mm²', ['area'], 1e-6, si, ['sq mm', 'sqmm', 'mm sq', 'mmq', 'mm squared', 'square mm']),
  unit('cm²', ['area'], 1e-4, si, ['sq cm', 'sqcm']),
  unit('m²', ['area'], 1, si, ['sq m', 'sqm']),
  unit('in²', ['area'], 6.4516e-4, b8('square inch'), ['sq in', 'sqin', 'square inch', 'square inches']),
  unit('ft²', ['area'], 9.290304e-2, b8('square foot'), ['sq ft', 'sqft', 'square foot', 'square feet']),
  unit('kcmil', ['area'], 1000 * (Math.PI / 4) * (inch / 1000) ** 2, b8('circular mil'), ['MCM', 'mcm', 'kCM']),
  { ...unit('AWG', ['area'], 1, 'ASTM B258', ['awg', 'Awg', 'ga AWG']), scale: 'wire_gauge' },

  unit('mL', ['volume'], 1e-6, si, ['ml', 'cc', 'cm³', 'ccm']),
  unit('L', ['volume'], 1e-3, si, ['l', 'litre', 'litres', 'liter', 'liters', 'ltr', 'dm³']),
  unit('m³', ['volume'], 1, si, ['cu m']),
  unit('US fl oz', ['volume'], gallonUs / 128, b8('ounce (US fluid)'), ['fl oz US']),
  unit('US pt', ['volume'], gallonUs / 8, b8('pint (US liquid)'), ['US pint', 'US pints']),
  unit('US qt', ['volume'], gallonUs / 4, b8('quart (US liquid)'), ['US quart', 'US quarts']),
  unit('US gal', ['volume'], gallonUs, b8('gallon (US)'), ['gal US', 'US gallon', 'US gallons']),
  unit('UK gal', ['volume'], gallonUk, b8('gallon (Imperial)'), ['imp gal', 'Imp gal', 'gal UK', 'UK gallon', 'UK gallons']),
  unit('in³', ['volume'], inch ** 3, b8('cubic inch'), ['cu in', 'cubic inch', 'cubic inches']),
  unit('ft³', ['volume'], foot ** 3, b8('cubic foot'), ['cu ft', 'cubic foot', 'cubic feet']),

  unit('mg', ['mass'], 1e-6, si),
  unit('g', ['mass'], 1e-3, si, ['gram', 'grams', 'gr']),
  unit('kg', ['mass'], 1, si, ['Kg', 'KG', 'kgs', 'kilo', 'kilos', 'kilogram', 'kilograms']),
  unit('t', ['mass'], 1e3, si, ['tonne', 'tonnes']),
  unit('oz', ['mass'], pound / 16, b8('ounce (avoirdupois)'), ['ounce', 'ounces']),
  unit('lb', ['mass'], pound, b8('pound (avoirdupois)'), ['lbs', 'Lb', 'LB', 'Lbs', 'LBS', 'pound', 'pounds', 'lbm']),

  unit('kg/m³', ['density'], 1, si),
  unit('kg/L', ['density'], 1e3, si, ['kg/l', 'kg/dm³', 't/m³']),
  unit('g/cm³', ['density'], 1e3, si, ['g/mL', 'g/ml', 'g/cc']),
  unit('lb/ft³', ['density'], pound / foot ** 3, b8('pound per cubic foot'), ['lbs/ft³', 'lb/cu ft', 'pcf']),
  unit('lb/in³', ['density'], pound / inch ** 3, b8('pound per cubic inch'), ['lbs/in³', 'lb/cu in']),
  unit('lb/US gal', ['density'], pound / gallonUs, b8('pound per gallon (US)')),

  unit('ns', ['time'], 1e-9, si),
  unit('µs', ['time'], 1e-6, si),
  unit('ms', ['time'], 1e-3, si, ['msec']),
  unit('s', ['time'], 1, si, ['sec', 'secs', 'second', 'seconds']),
  unit('min', ['time'], 60, b8('minute'), ['mins', 'minute', 'minutes']),
  unit('h', ['time'], 3600, b8('hour'), ['hr', 'hrs', 'hour', 'hours']),
  unit('d', ['time'], 86400, b8('day'), ['day', 'days']),

  unit('m/s', ['speed'], 1, si),
  unit('km/h', ['speed'], 1 / 3.6, b8('kilometer per hour'), ['kph', 'kmh', 'km/hr', 'KPH']),
  unit('mph', ['speed'], 0.44704, b8('mile per hour'), ['MPH', 'mi/h']),
  unit('ft/s', ['speed'], foot, b8('foot per second'), ['fps']),

  unit('m/s²', ['acceleration'], 1, si, ['m/s/s']),
  unit('ft/s²', ['acceleration'], foot, b8('foot per second squared'), ['ft/s/s']),
  unit('g_n', ['acceleration'], gravity, b8('acceleration of free fall, standard'), ['g', 'G', 'gn', 'gₙ'], 'g'),

  unit('°', ['angle'], Math.PI / 180, b8('degree (angle)'), ['deg', 'degree', 'degrees']),
  unit('rad', ['angle'], 1, si, ['radian', 'radians']),
  unit('rev', ['angle'], 2 * Math.PI, b8('revolution'), ['turn', 'turns']),

  unit('rpm', ['angular_speed'], Math.PI / 30, b8('revolution per minute'), ['RPM', 'r/min', 'rev/min', '1/min', 'min⁻¹', 'min-1']),
  unit('rad/s', ['angular_speed'], 1, si),
  unit('°/s', ['angular_speed'], Math.PI / 180, si, ['deg/s']),

  unit('mHz', ['frequency'], 1e-3, si),
  unit('Hz', ['frequency'], 1, si, ['hz', 'HZ', '1/s']),
  unit('kHz', ['frequency'], 1e3, si, ['khz', 'KHz', 'kHZ']),
  unit('MHz', ['frequency'], 1e6, si),

  unit('N', ['force'], 1, si, ['newton', 'newtons']),
  unit('kN', ['force'], 1e3, si, ['KN']),
  unit('lbf', ['force'], poundForce, b8('pound-force'), ['pound force', 'pounds force']),
  unit('kgf', ['force'], gravity, b8('kilogram-force'), ['kp']),

  unit('mN·m', ['torque'], 1e-3, si, ['mNm']),
  unit('N·cm', ['torque'], 1e-2, si, ['Ncm']),
  unit('N·m', ['torque'], 1, si, ['Nm', 'nm', 'NM', 'newton metre', 'newton metres', 'newton meter', 'newton meters']),
  unit('kN·m', ['torque'], 1e3, si, ['kNm']),
  unit('lbf·ft', ['torque'], poundForce * foot, b8('pound-force foot'), ['lb·ft', 'ft·lb', 'ft·lbf', 'ft·lbs', 'lbs·ft', 'lbft', 'ftlb', 'ftlbs', 'foot pound', 'foot pounds', 'pound foot', 'pound feet']),
  unit('lbf·in', ['torque'], poundForce * inch, b8('pound-force inch'), ['lb·in', 'in·lb', 'in·lbf', 'in·lbs', 'lbs·in', 'inch pound', 'inch pounds']),
  unit('kgf·m', ['torque'], gravity, b8('kilogram-force meter'), ['kgm', 'kg·m', 'm·kgf']),

  unit('Pa', pressureServed, 1, si),
  unit('hPa', pressureServed, 100, si),
  unit('kPa', pressureServed, 1e3, si, ['KPa', 'kpa', 'KPA']),
  unit('MPa', pressureServed, 1e6, si),
  unit('mbar', pressureServed, 100, b8('millibar')),
  unit('bar', pressureServed, 1e5, b8('bar'), ['Bar', 'BAR', 'bars']),
  unit('psi', pressureServed, psi, b8('pound-force per square inch'), ['PSI', 'Psi', 'lbf/in²', 'lb/in²']),
  unit('mmHg', pressureServed, 133.322387415, b8('millimeter of mercury, conventional')),
  unit('inHg', pressureServed, 25.4 * 133.322387415, b8('inch of mercury, conventional'), ['in Hg']),
  unit('mH2O', pressureServed, 1e3 * gravity, b8('meter of water, conventional'), ['mH₂O', 'm H2O', 'mWC', 'mWS']),
  unit('inH2O', pressureServed, 25.4 * gravity, b8('inch of water, conventional'), ['inH₂O', 'in H2O', 'inWC']),
  unit('kPa_gauge', ['pressure_gauge'], 1e3, si, ['kPag', 'kPa g'], 'kPa gauge'),
  unit('bar_gauge', ['pressure_gauge'], 1e5, b8('bar'), ['barg', 'bar g'], 'bar gauge'),
  unit('psi_gauge', ['pressure_gauge'], psi, b8('pound-force per square inch'), ['psig', 'PSIG', 'psi g'], 'psi gauge'),
  unit('Pa_abs', ['pressure_absolute'], 1, si, ['Paa', 'Pa a', 'Pa absolute'], 'Pa abs'),
  unit('hPa_abs', ['pressure_absolute'], 100, si, ['hPa absolute'], 'hPa abs'),
  unit('kPa_abs', ['pressure_absolute'], 1e3, si, ['kPaa', 'kPa a', 'kPa absolute'], 'kPa abs'),
  unit('MPa_abs', ['pressure_absolute'], 1e6, si, ['MPa absolute'], 'MPa abs'),
  unit('mbar_abs', ['pressure_absolute'], 100, b8('millibar'), ['mbara', 'mbar absolute'], 'mbar abs'),
  unit('bar_abs', ['pressure_absolute'], 1e5, b8('bar'), ['bara', 'bar a', 'bar absolute'], 'bar abs'),
  unit('psi_abs', ['pressure_absolute'], psi, b8('pound-force per square inch'), ['psia', 'PSIA', 'psi a', 'psi absolute'], 'psi abs'),

  unit('mL/min', ['volume_flow'], 1e-6 / 60, si, ['ml/min', 'cc/min']),
  unit('L/min', ['volume_flow'], 1e-3 / 60, b8('liter per minute'), ['l/min', 'lpm', 'LPM', 'L/m', 'l/m', 'litres/min', 'litre/min', 'liters/min']),
  unit('L/h', ['volume_flow'], 1e-3 / 3600, si, ['l/h', 'lph', 'LPH', 'L/hr', 'l/hr']),
  unit('L/s', ['volume_flow'], 1e-3, si, ['l/s']),
  unit('m³/h', ['volume_flow'], 1 / 3600, si),
  unit('m³/s', ['volume_flow'], 1, si),
  unit('US gal/min', ['volume_flow'], gallonUs / 60, b8('gallon (US) per minute'), ['gpm', 'GPM', 'US gpm', 'gal/min', 'usgpm']),
  unit('US gal/h', ['volume_flow'], gallonUs / 3600, si, ['gph', 'GPH', 'US gph', 'gal/h']),
  unit('ft³/min', ['volume_flow'], foot ** 3 / 60, b8('cubic foot per minute'), ['cfm', 'CFM', 'cu ft/min']),

  unit('K', ['temperature', 'temperature_difference'], 1, si, ['kelvin', 'kelvins', 'Kelvin']),
  unit('mK', ['temperature_difference'], 1e-3, si),
  { ...unit('°C', ['temperature'], 1, 'NIST SP 811 B.9, degree Celsius', ['C', '℃', 'degC', 'deg C', 'degrees C', 'degree C', 'celsius', 'Celsius', '°c']), offset: 273.15 },
  { ...unit('°F', ['temperature'], 5 / 9, 'NIST SP 811 B.9, degree Fahrenheit', ['F', '℉', 'degF', 'deg F', 'degrees F', 'degree F', 'fahrenheit', 'Fahrenheit', '°f']), offset: 459.67 * (5 / 9) },
  unit('°C diff', ['temperature_difference'], 1, b8('degree Celsius, temperature interval'), ['C°', 'delta °C', 'Δ°C', 'deg C diff', 'C diff']),
  unit('°F diff', ['temperature_difference'], 5 / 9, b8('degree Fahrenheit, temperature interval'), ['F°', 'delta °F', 'Δ°F', 'deg F diff', 'F diff']),

  unit('µV', ['voltage'], 1e-6, si),
  unit('mV', ['voltage'], 1e-3, si, ['mv', 'millivolt', 'millivolts']),
  unit('V', ['voltage'], 1, si, ['v', 'volt', 'volts', 'Volt', 'Volts', 'VDC', 'Vdc', 'V DC', 'V dc', 'VAC', 'Vac', 'V AC', 'V ac']),
  unit('kV', ['voltage'], 1e3, si, ['KV', 'kv']),

  unit('nA', ['current'], 1e-9, si),
  unit('µA', ['current'], 1e-6, si),
  unit('mA', ['current'], 1e-3, si, ['ma', 'milliamp', 'milliamps']),
  unit('A', ['current'], 1, si, ['amp', 'amps', 'Amp', 'Amps', 'ampere', 'amperes', 'ADC', 'A DC', 'A dc']),
  unit('kA', ['current'], 1e3, si, ['KA']),

  unit('nΩ', ['resistance'], 1e-9, si),
  unit('µΩ', ['resistance'], 1e-6, si, ['microohm', 'microohms']),
  unit('mΩ', ['resistance'], 1e-3, si, ['milliohm', 'milliohms']),
  unit('Ω', ['resistance'], 1, si, ['R']),
  unit('kΩ', ['resistance'], 1e3, si, ['KΩ', 'k', 'kR']),
  unit('MΩ', ['resistance'], 1e6, si, ['megohm', 'megohms', 'Meg', 'megΩ']),
  unit('GΩ', ['resistance'], 1e9, si, ['gigohm', 'gigohms']),

  unit('pF', ['capacitance'], 1e-12, si),
  unit('nF', ['capacitance'], 1e-9, si),
  unit('µF', ['capacitance'], 1e-6, si, ['microfarad', 'microfarads']),
  unit('mF', ['capacitance'], 1e-3, si, ['millifarad', 'millifarads']),
  unit('F', ['capacitance'], 1, si, ['farad', 'farads']),

  unit('nH', ['inductance'], 1e-9, si),
  unit('µH', ['inductance'], 1e-6, si),
  unit('mH', ['inductance'], 1e-3, si),
  unit('H', ['inductance'], 1, si, ['henry', 'henries']),

  unit('µC', ['charge'], 1e-6, si),
  unit('mC', ['charge'], 1e-3, si),
  unit('C', ['charge'], 1, si, ['As', 'A·s', 'coulomb', 'coulombs']),
  unit('mAh', ['charge'], 3.6, b8('ampere hour'), ['mah', 'mAH', 'MAH', 'mA·h']),
  unit('Ah', ['charge'], 3600, b8('ampere hour'), ['ah', 'AH', 'A·h', 'amp hour', 'amp hours']),

  unit('µJ', ['energy'], 1e-6, si),
  unit('mJ', ['energy'], 1e-3, si),
  unit('J', ['energy'], 1, si, ['Ws', 'W·s', 'joule', 'joules']),
  unit('kJ', ['energy'], 1e3, si, ['KJ']),
  unit('MJ', ['energy'], 1e6, si),
  unit('Wh', ['energy'], 3600, b8('watt hour'), ['wh', 'WH', 'W·h']),
  unit('kWh', ['energy'], 3.6e6, b8('kilowatt hour'), ['kwh', 'KWh', 'KWH', 'kWH', 'kW·h']),
  unit('MWh', ['energy'], 3.6e9, si),
  unit('Btu', ['energy'], btu, b8('British thermal unit (IT)'), ['BTU', 'btu']),

  unit('µW', ['power'], 1e-6, si),
  unit('mW', ['power'], 1e-3, si),
  unit('W', ['power'], 1, si, ['w', 'watt', 'watts', 'Watt', 'Watts', 'J/s']),
  unit('kW', ['power'], 1e3, si, ['kw', 'KW', 'Kw', 'kilowatt', 'kilowatts']),
  unit('MW', ['power'], 1e6, si),
  unit('hp', ['power'], 550 * foot * poundForce, b8('horsepower (550 ft lbf/s)'), ['HP', 'bhp', 'BHP', 'horsepower']),
  unit('PS', ['power'], 75 * gravity, b8('horsepower (metric)'), ['ps', 'metric hp', 'hp metric', 'cv']),
  unit('Btu/h', ['power'], btu / 3600, b8('British thermal unit (IT) per hour'), ['BTU/h', 'BTU/hr', 'btu/h', 'Btu/hr']),

  unit('A²s', ['heating_integral'], 1, si, ['A²·s', 'A²sec']),
  unit('kA²s', ['heating_integral'], 1e3, si, ['kA²·s']),

  unit('µΩ/m', ['resistance_per_length'], 1e-6, si),
  unit('mΩ/m', ['resistance_per_length'], 1e-3, si),
  unit('Ω/m', ['resistance_per_length'], 1, si),
  unit('Ω/km', ['resistance_per_length'], 1e-3, si),
  unit('mΩ/ft', ['resistance_per_length'], 1e-3 / foot, b8('foot')),
  unit('Ω/ft', ['resistance_per_length'], 1 / foot, b8('foot')),
  unit('Ω/kft', ['resistance_per_length'], 1e-3 / foot, b8('foot'), ['Ω/1000 ft', 'Ω/1000ft']),

  unit('Ω/V', ['resistance_per_voltage'], 1, si, ['Ω/volt']),
  unit('kΩ/V', ['resistance_per_voltage'], 1e3, si, ['kΩ/volt']),
  unit('MΩ/V', ['resistance_per_voltage'], 1e6, si),

  unit('mK/W', ['thermal_resistance'], 1e-3, si),
  unit('K/W', ['thermal_resistance'], 1, si, ['°C/W', 'C/W']),
  unit('K/kW', ['thermal_resistance'], 1e-3, si, ['°C/kW']),

  unit('K·m/W', ['thermal_resistivity'], 1, si, ['m·K/W', '°C·m/W', 'Km/W']),
  unit('K·cm/W', ['thermal_resistivity'], 1e-2, si, ['cm·K/W', '°C·cm/W']),

  unit('%', ['ratio'], 0.01, si, ['percent', 'per cent', 'pct']),
  unit('‰', ['ratio'], 0.001, si, ['per mille']),
  unit('1', ['ratio', 'number'], 1, si, [], ''),
];

/** Every unit by key. */
export const units: ReadonlyMap<string, UnitRow> = new Map(rows.map((row) => [row.key, row]));

/** The row of a unit key. Errors: throws if there is no such unit, or if it does not serve the quantity. */
export function unitOf(key: string, quantity: QuantityName): UnitRow {
  const row = units.get(key);
  if (row === undefined) throw new RangeError(`the unit table has no unit '${key}'`);
  if (!row.serves.includes(quantity)) throw new RangeError(`the unit '${key}' does not serve ${quantity}`);
  return row;
}

function unit(key: string, serves: readonly QuantityName[], factor: number, source: string, spellings: readonly string[] = [], printed = key): UnitRow {
  return { key, printed, spellings, serves, factor, offset: 0, scale: 'linear', source };
}
