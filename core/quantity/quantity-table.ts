/**
 * The one table of quantities: name, symbol (ISO 80000), coherent SI unit, meaning, and the units a builder likes to see.
 * A temperature is not a temperature difference, gauge is not absolute pressure: they are rows of their own.
 */
export interface QuantityRow {
  readonly symbol: string;
  /** coherent SI unit, as printed */
  readonly si: string;
  readonly meaning: string;
  /** unit keys of the unit table, smallest first; printing picks the one that gives a number between 1 and 1000 */
  readonly metric: readonly string[];
  readonly imperial: readonly string[];
}

export const quantities = {
  length: { symbol: 'l', si: 'm', meaning: 'length, width, distance', metric: ['mm', 'm'], imperial: ['in', 'ft'] },
  coordinate: { symbol: 'x', si: 'm', meaning: 'where something is along an axis; either sign', metric: ['mm', 'm'], imperial: ['in', 'ft'] },
  area: { symbol: 'A', si: 'm²', meaning: 'cross-section of a conductor, surface', metric: ['mm²'], imperial: ['mm²'] },
  volume: { symbol: 'V', si: 'm³', meaning: 'volume', metric: ['mL', 'L'], imperial: ['US fl oz', 'US gal'] },
  mass: { symbol: 'm', si: 'kg', meaning: 'mass; what a scale shows', metric: ['g', 'kg'], imperial: ['lb'] },
  density: { symbol: 'ρ', si: 'kg/m³', meaning: 'mass per volume', metric: ['kg/m³'], imperial: ['lb/ft³'] },
  time: { symbol: 't', si: 's', meaning: 'duration', metric: ['µs', 'ms', 's', 'min', 'h', 'd'], imperial: ['µs', 'ms', 's', 'min', 'h', 'd'] },
  speed: { symbol: 'v', si: 'm/s', meaning: 'speed', metric: ['km/h'], imperial: ['mph'] },
  acceleration: { symbol: 'a', si: 'm/s²', meaning: 'acceleration', metric: ['m/s²'], imperial: ['ft/s²'] },
  angle: { symbol: 'φ', si: 'rad', meaning: 'plane angle', metric: ['°'], imperial: ['°'] },
  angular_speed: { symbol: 'ω', si: 'rad/s', meaning: 'speed of rotation', metric: ['rpm'], imperial: ['rpm'] },
  frequency: { symbol: 'f', si: 'Hz', meaning: 'cycles per second', metric: ['Hz', 'kHz'], imperial: ['Hz', 'kHz'] },
  force: { symbol: 'F', si: 'N', meaning: 'force', metric: ['N', 'kN'], imperial: ['lbf'] },
  torque: { symbol: 'M', si: 'N·m', meaning: 'torque', metric: ['N·m'], imperial: ['lbf·ft'] },
  pressure_gauge: { symbol: 'pₑ', si: 'Pa', meaning: 'pressure above the air around', metric: ['kPa', 'bar'], imperial: ['psi'] },
  pressure_absolute: { symbol: 'p', si: 'Pa', meaning: 'pressure above vacuum', metric: ['kPa_abs', 'bar_abs'], imperial: ['psi_abs'] },
  pressure_difference: { symbol: 'Δp', si: 'Pa', meaning: 'difference of two pressures', metric: ['Pa', 'kPa', 'bar'], imperial: ['psi'] },
  volume_flow: { symbol: 'q', si: 'm³/s', meaning: 'volume per time', metric: ['L/min'], imperial: ['US gal/min'] },
  temperature: { symbol: 'T', si: 'K', meaning: 'a temperature', metric: ['°C'], imperial: ['°F'] },
  temperature_difference: { symbol: 'ΔT', si: 'K', meaning: 'rise, drop or difference of temperatures', metric: ['K'], imperial: ['°F diff'] },
  voltage: { symbol: 'U', si: 'V', meaning: 'voltage between two points', metric: ['µV', 'mV', 'V', 'kV'], imperial: ['µV', 'mV', 'V', 'kV'] },
  current: { symbol: 'I', si: 'A', meaning: 'electric current', metric: ['µA', 'mA', 'A', 'kA'], imperial: ['µA', 'mA', 'A', 'kA'] },
  resistance: { symbol: 'R', si: 'Ω', meaning: 'electric resistance', metric: ['µΩ', 'mΩ', 'Ω', 'kΩ', 'MΩ', 'GΩ'], imperial: ['µΩ', 'mΩ', 'Ω', 'kΩ', 'MΩ', 'GΩ'] },
  capacitance: { symbol: 'C', si: 'F', meaning: 'electric capacitance', metric: ['pF', 'nF', 'µF', 'mF', 'F'], imperial: ['pF', 'nF', 'µF', 'mF', 'F'] },
  inductance: { symbol: 'L', si: 'H', meaning: 'electric inductance', metric: ['nH', 'µH', 'mH', 'H'], imperial: ['nH', 'µH', 'mH', 'H'] },
  charge: { symbol: 'Q', si: 'C', meaning: 'electric charge; capacity of a cell', metric: ['mAh', 'Ah'], imperial: ['mAh', 'Ah'] },
  energy: { symbol: 'E', si: 'J', meaning: 'energy', metric: ['mJ', 'J', 'kJ', 'Wh', 'kWh'], imperial: ['mJ', 'J', 'kJ', 'Wh', 'kWh'] },
  power: { symbol: 'P', si: 'W', meaning: 'power', metric: ['mW', 'W', 'kW'], imperial: ['mW', 'W', 'kW'] },
  heating_integral: { symbol: 'I²t', si: 'A²·s', meaning: 'integral of current squared over time; what melts a fuse or heats a conductor', metric: ['A²s'], imperial: ['A²s'] },
  resistance_per_length: { symbol: 'R′', si: 'Ω/m', meaning: 'resistance of a conductor per length', metric: ['mΩ/m', 'Ω/m'], imperial: ['Ω/kft'] },
  resistance_per_voltage: { symbol: 'R/U', si: 'Ω/V', meaning: 'isolation resistance per volt of working voltage', metric: ['Ω/V', 'kΩ/V'], imperial: ['Ω/V', 'kΩ/V'] },
  thermal_resistance: { symbol: 'Rθ', si: 'K/W', meaning: 'temperature difference per heat flow', metric: ['K/W'], imperial: ['K/W'] },
  thermal_resistivity: { symbol: 'ρθ', si: 'K·m/W', meaning: 'resistance of a material to heat', metric: ['K·m/W'], imperial: ['K·m/W'] },
  ratio: { symbol: 'r', si: '1', meaning: 'share, efficiency, duty, state of charge', metric: ['%'], imperial: ['%'] },
  number: { symbol: 'n', si: '1', meaning: 'a plain number without a unit', metric: ['1'], imperial: ['1'] },
} as const satisfies Record<string, QuantityRow>;

export type QuantityName = keyof typeof quantities;
