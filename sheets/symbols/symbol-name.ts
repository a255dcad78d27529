/** Every symbol that a sheet can draw. */
export const symbolNames = [
  'battery', 'fuse', 'pyro_fuse', 'contactor', 'make_contact', 'break_contact', 'switch', 'disconnector', 'coil', 'resistor', 'precharge_resistor', 'shunt',
  'diode', 'bar', 'pins', 'inlet', 'lamp', 'pump', 'heater', 'compressor', 'dc_dc', 'ac_dc', 'dc_ac', 'drive', 'isolation_monitor', 'chassis', 'load', 'unit', 'none',
] as const;
export type SymbolName = (typeof symbolNames)[number];
