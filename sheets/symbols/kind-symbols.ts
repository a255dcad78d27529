/**
 * Which symbol a part kind has, what it is called in a word, and which fields of the file say what it is made for.
 * The one place of the sheets that knows kinds by name; a kind without a row is drawn as a box with its name.
 */
import type { SymbolName } from './symbol-name.ts';

export interface KindSymbol {
  readonly symbol: SymbolName;
  /** fields written beside it, in this order; those that the file lacks are left out, of the first a — is written */
  readonly rating: readonly string[];
}

const row = (symbol: SymbolName, ...rating: readonly string[]): KindSymbol => ({ symbol, rating });

export const kindSymbols: Readonly<Record<string, KindSymbol>> = {
  battery_module: row('battery', 'measured_voltage'),
  hv_fuse: row('fuse', 'rating', 'voltage_rating'),
  pyro_fuse: row('pyro_fuse', 'rating', 'voltage_rating'),
  service_disconnect: row('disconnector', 'rating', 'fuse_rating'),
  contactor: row('contactor', 'rating', 'voltage_rating'),
  precharge_resistor: row('precharge_resistor', 'resistance', 'pulse_energy'),
  precharge_converter: row('dc_dc', 'output_voltage', 'output_power'),
  shunt: row('shunt', 'rating', 'resistance'),
  junction: row('bar', 'rating'),
  stud: row('bar'),
  isolation_monitor: row('isolation_monitor', 'warn_below'),
  inverter: row('dc_ac', 'peak_power', 'peak_current'),
  drive_unit: row('drive', 'peak_power', 'peak_current'),
  dcdc: row('dc_dc', 'output_current', 'output_voltage'),
  charger: row('ac_dc', 'output_power', 'output_current'),
  charge_inlet: row('inlet', 'rating'),
  hv_heater: row('heater', 'rated_power'),
  hv_compressor: row('compressor', 'rated_power'),
  bench_source: row('ac_dc', 'maximum_voltage', 'maximum_current'),
  battery_12v: row('battery', 'capacity', 'nominal_voltage'),
  fuse: row('fuse', 'rating'),
  relay: row('make_contact', 'rating'),
  switch: row('switch', 'rating'),
  pedal: row('none'),
  diode: row('diode', 'rating'),
  load: row('load', 'current'),
  pump: row('pump', 'current'),
  indicator: row('lamp', 'current'),
  controller: row('unit', 'current'),
  can_node: row('unit', 'current'),
  can_termination: row('resistor', 'resistance'),
  connector: row('pins', 'pin_rating'),
  splice: row('bar'),
  ground_stud: row('chassis'),
  interlock_contact: row('make_contact'),
  ballast: row('none'),
};

const BOX: KindSymbol = { symbol: 'none', rating: [] };

export const symbolOf = (kind: string): KindSymbol => kindSymbols[kind] ?? BOX;

/** What stands before a number of the file, by the name of its field. */
export const ratingWords: Readonly<Record<string, string>> = {
  rating: 'rated ', voltage_rating: 'up to ', fuse_rating: 'fuse ', measured_voltage: 'measured ', resistance: '', pulse_energy: 'pulse ', output_voltage: 'set to ', output_power: 'gives ',
  output_current: 'gives ', warn_below: 'warns below ', peak_power: 'peak ', peak_current: 'peak ', rated_power: 'takes ', maximum_voltage: 'up to ', maximum_current: 'up to ', capacity: '', nominal_voltage: '', current: 'takes ', pin_rating: 'pin ',
};
