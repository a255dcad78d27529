/**
 * Handbook rows of the high-voltage kinds. Where the note says so, a value is from memory or common practice without a source;
 * such rows say what is usual and check nothing.
 */
import type { QuantityName } from '../core/quantity/quantity-table.ts';
import type { HandbookRow } from '../core/part/catalogue.ts';

/** A row that nothing published stands behind. */
const usual = (key: string, quantity: QuantityName, value: string, range: string, note: string): HandbookRow =>
  ({ key, quantity, value, range, source: 'common-practice', note: `${note}; common practice, no source` });

export const highVoltageRows: readonly HandbookRow[] = [
  usual('battery_module.link_resistance', 'resistance', '0.5 mΩ', '0.1..1.5 mΩ', 'links and terminals of a module of 4 to 24 cell groups'),
  usual('battery_module.insulation_resistance', 'resistance', '500 MΩ', '20..2000 MΩ', 'dry module, each pole to its case'),

  usual('coil.hold_current', 'current', '0.4 A', '0.13..1.2 A', '12 V coil; with an economiser 0.13 A (a maker’s sheet for 500 A), plain coils 0.3 to 1.2 A'),
  usual('coil.pick_up_share', 'ratio', '75 %', '60..80 %', 'coil at 20 °C: a maker’s sheet states 9 V on a 12 V coil; a hot coil needs up to a third more'),
  usual('coil.drop_out_share', 'ratio', '25 %', '10..50 %', 'plain coils 10 to 40 %; a maker’s sheet with economiser states 6 V on 12 V'),
  usual('coil.pull_in_current', 'current', '3.8 A', '2..6 A', 'coil with economiser for about 0.1 s; from memory'),
  usual('coil.operate_time', 'time', '20 ms', '10..30 ms', '15 to 25 ms in a maker’s sheet, from memory'),
  usual('coil.release_time', 'time', '12 ms', '5..30 ms', '12 ms at most in a maker’s sheet, from memory; longer with a bare diode'),
  usual('contactor.contact_resistance', 'resistance', '0.2 mΩ', '0.1..0.5 mΩ', 'sealed contactors of 150 to 500 A'),
  usual('contactor.auxiliary_resistance', 'resistance', '0.2 Ω', '0.05..1 Ω', 'small signal contact'),
  usual('precharge_resistor.contact_resistance', 'resistance', '10 mΩ', '2..100 mΩ', 'relay of 5 to 20 A'),

  usual('precharge_converter.efficiency', 'ratio', '85 %', '75..92 %', 'boost from 12 V to some hundred volts'),
  usual('precharge_converter.output_resistance', 'resistance', '1 Ω', '0.1..10 Ω', 'regulation of the output'),
  usual('precharge_converter.idle_power', 'power', '1.5 W', '0.5..5 W', 'enabled, not loaded'),
  usual('precharge_converter.insulation_resistance', 'resistance', '50 MΩ', '5..500 MΩ', 'each output pole to the case'),

  usual('bench_source.lead_resistance', 'resistance', '0.2 Ω', '0.05..1 Ω', 'two leads of 1 to 2 m with clips, and the ammeter’s shunt'),
  usual('bench_source.output_capacitance', 'capacitance', '22 µF', '2..220 µF', 'supplies of some hundred volts; those for 60 V have more'),
  usual('bench_source.preload', 'resistance', '47 kΩ', '10..470 kΩ', 'what its output stage and voltmeter take'),
  usual('bench_source.insulation_resistance', 'resistance', '50 MΩ', '10..1000 MΩ', 'each terminal to protective earth'),

  usual('hv_fuse.voltage_drop', 'voltage', '90 mV', '50..150 mV', 'at rated current; 75 mV is stated for a 40 A low-voltage fuse'),
  usual('pyro_fuse.resistance', 'resistance', '0.08 mΩ', '0.04..0.2 mΩ', 'solid bar with bolted ends'),
  usual('pyro_fuse.trigger_resistance', 'resistance', '2 Ω', '1.7..2.5 Ω', 'vehicle igniter'),
  usual('service_disconnect.contact_resistance', 'resistance', '0.2 mΩ', '0.1..0.6 mΩ', 'both blades together'),
  usual('shunt.supply_power', 'power', '0.8 W', '0.3..2 W', 'shunt with electronics'),
  usual('junction.bar_resistance', 'resistance', '20 µΩ', '5..100 µΩ', 'bar with two bolted joints'),
  usual('junction.insulation_resistance', 'resistance', '1 GΩ', '0.1..10 GΩ', 'dry plastic stand-offs'),

  usual('isolation_monitor.internal_resistance', 'resistance', '2.4 MΩ', '0.5..5 MΩ', 'each pole to the chassis; from memory'),
  usual('isolation_monitor.contact_resistance', 'resistance', '1 Ω', '0.1..30 Ω', 'relay or semiconductor contact'),
  usual('isolation_monitor.supply_power', 'power', '2 W', '0.8..4 W', 'while it measures'),

  usual('inverter.insulation_resistance', 'resistance', '20 MΩ', '2..200 MΩ', 'each pole to the case, with its motor, dry'),
  usual('drive_unit.insulation_resistance', 'resistance', '20 MΩ', '2..200 MΩ', 'each pole to the housing, winding included, dry'),
  usual('traction.supply_power', 'power', '15 W', '6..40 W', 'inverter electronics awake, not driving'),

  usual('dcdc.output_resistance', 'resistance', '2 mΩ', '0.5..10 mΩ', 'regulation of the output'),
  usual('dcdc.efficiency', 'ratio', '92 %', '85..96 %', 'vehicle converter at medium load'),
  usual('dcdc.idle_power', 'power', '15 W', '5..40 W', 'running, not loaded'),
  usual('dcdc.link_capacitance', 'capacitance', '10 µF', '2..50 µF', 'input filter'),
  usual('dcdc.insulation_resistance', 'resistance', '50 MΩ', '5..500 MΩ', 'each input pole to the case'),

  usual('charger.minimum_input_voltage', 'voltage', '90 V', '80..180 V', 'rms, line to neutral'),
  usual('charger.efficiency', 'ratio', '93 %', '88..96 %', 'alternating to direct, at its rating'),
  usual('charger.idle_power', 'power', '20 W', '5..60 W', 'control and fan while it runs'),
  usual('charger.output_resistance', 'resistance', '50 mΩ', '10..500 mΩ', 'regulation of the voltage limit'),
  usual('charger.link_capacitance', 'capacitance', '10 µF', '1..100 µF', 'output filter'),
  usual('charger.insulation_resistance', 'resistance', '50 MΩ', '5..500 MΩ', 'each output pole to the case'),
  usual('charger.supply_power', 'power', '8 W', '3..20 W', 'electronics awake'),
  usual('charge_inlet.contact_resistance', 'resistance', '0.5 mΩ', '0.2..3 mΩ', 'one mated power pin'),
  usual('charge_inlet.lock_resistance', 'resistance', '8 Ω', '4..30 Ω', 'small 12 V lock motor standing still'),
  usual('charge_inlet.insulation_resistance', 'resistance', '100 MΩ', '10..1000 MΩ', 'each pin to the body, dry; UN R100 5.1.3.4 asks for 1 MΩ (from memory)'),

  usual('hv_heater.link_capacitance', 'capacitance', '1 µF', '0.2..10 µF', 'input filter'),
  usual('hv_heater.insulation_resistance', 'resistance', '50 MΩ', '2..500 MΩ', 'each pole to the housing, dry'),
  usual('hv_heater.supply_power', 'power', '3 W', '1..8 W', 'electronics awake'),
  usual('hv_compressor.link_capacitance', 'capacitance', '30 µF', '10..100 µF', 'inverter in the compressor'),
  usual('hv_compressor.insulation_resistance', 'resistance', '20 MΩ', '1..200 MΩ', 'each pole to the housing; falls with the wrong oil'),
  usual('hv_compressor.supply_power', 'power', '4 W', '1..10 W', 'electronics awake'),

  usual('interlock.contact_resistance', 'resistance', '50 mΩ', '5..200 mΩ', 'small signal contact with its crimps'),
  usual('control.minimum_supply_voltage', 'voltage', '9 V', '6.5..10.5 V', '12 V electronics'),
  usual('control.maximum_supply_voltage', 'voltage', '16 V', '15..18 V', '12 V electronics'),
  usual('control.sleep_current', 'current', '0.3 mA', '0.05..3 mA', 'asleep'),
  usual('control.enable_voltage', 'voltage', '6 V', '3.5..8 V', 'wake-up input of 12 V electronics'),
  usual('control.enable_resistance', 'resistance', '10 kΩ', '2..100 kΩ', 'wake-up input of 12 V electronics'),
];
