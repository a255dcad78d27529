/**
 * Handbook rows of the low-voltage kinds. Where the note says so, a value is from memory or is common practice without a source;
 * such rows say what is usual and check nothing.
 */
import type { HandbookRow } from '../core/part/catalogue.ts';

export const lowVoltageRows: readonly HandbookRow[] = [
  { key: 'battery_12v.state_of_charge', quantity: 'ratio', value: '90 %', range: '70..100 %', source: 'common-practice', note: 'a battery that its supply keeps charged; common practice, no source' },
  { key: 'battery_12v.internal_resistance', quantity: 'resistance', value: '6 mΩ', range: '3..15 mΩ', source: 'common-practice', note: '12 V, 40 to 100 Ah, 25 °C; twice that for 24 V, four times for 10 Ah, about twice at -20 °C: then write your own. From memory, no source' },
  { key: 'battery_12v.charge_resistance', quantity: 'resistance', value: '0.2 Ω', range: '0.05..1 Ω', source: 'common-practice', note: 'lead-acid near full: 14.2 V on a 12.6 V battery feeds it 8 A (1.6 to 32 A); an empty one takes more. Common practice, no source' },

  { key: 'fuse.voltage_rating', quantity: 'voltage', value: '32 V', range: '32..58 V', source: 'iso-8820-3', note: '32 V for ordinary blades; 58 V types exist and are marked' },
  { key: 'fuse.breaking_capacity', quantity: 'current', value: '1000 A', range: '1000..2000 A', source: 'iso-8820-3', note: '1000 A at 32 V DC for plug-in blades, as data sheets state; bolted strips often 2000 A (from memory)' },
  { key: 'fuse.voltage_drop', quantity: 'voltage', value: '0.1 V', range: '0.05..0.15 V', source: 'common-practice', note: 'at rated current, with holder; a 40 A large blade is stated at 75 mV. Common practice, no source' },

  { key: 'relay.coil_power', quantity: 'power', value: '1.6 W', range: '0.45..1.9 W', source: 'common-practice', note: 'plug-in relays 1.6 to 1.8 W (85 to 100 Ω at 12 V, ISO 7588 size, from memory); relays for circuit boards 0.48 to 1 W from component data' },
  { key: 'relay.pick_up_share', quantity: 'ratio', value: '60 %', range: '50..75 %', source: 'common-practice', note: 'component data at 12 V: pulls in at 7 V or less, 9 V or less; coil at 20 °C. A hot coil needs up to a third more' },
  { key: 'relay.drop_out_share', quantity: 'ratio', value: '20 %', range: '4..35 %', source: 'common-practice', note: 'component data at 12 V: lets go at 0.5 V or 1.2 V at the latest; most do well above. Common practice, no source' },
  { key: 'relay.contact_resistance', quantity: 'resistance', value: '5 mΩ', range: '2..15 mΩ', source: 'common-practice', note: 'contact with its socket, in use; common practice, no source' },
  { key: 'relay.suppression_resistance', quantity: 'resistance', value: '680 Ω', range: '470..1000 Ω', source: 'common-practice', note: 'across a 12 V coil; common practice, no source' },
  { key: 'relay.operate_time', quantity: 'time', value: '8 ms', range: '3..15 ms', source: 'common-practice', note: '15 ms at most in component data; common practice, no source' },
  { key: 'relay.release_time', quantity: 'time', value: '5 ms', range: '2..20 ms', source: 'common-practice', note: 'longer with a diode across the coil; common practice, no source' },
  { key: 'switch.contact_resistance', quantity: 'resistance', value: '10 mΩ', range: '2..50 mΩ', source: 'common-practice', note: 'common practice, no source' },
  { key: 'pedal.track_resistance', quantity: 'resistance', value: '2 kΩ', range: '0.8..6 kΩ', source: 'common-practice', note: 'one track of a pedal sensor, supply to ground; contactless ones look like more. Common practice, no source' },
  { key: 'diode.drop', quantity: 'voltage', value: '0.7 V', range: '0.3..0.9 V', source: 'common-practice', note: 'silicon 0.6 to 0.9 V, Schottky from 0.3 V; common practice, no source' },
  { key: 'diode.resistance', quantity: 'resistance', value: '30 mΩ', range: '10..100 mΩ', source: 'common-practice', note: 'diodes of 1 to 6 A; common practice, no source' },

  { key: 'consumer.rated_voltage', quantity: 'voltage', value: '13.5 V', range: '12..14.2 V', source: 'common-practice', note: '12 V side with its supply running; write it yourself on a 24 V side. Common practice, no source' },
  { key: 'consumer.minimum_voltage', quantity: 'voltage', value: '9 V', range: '8..10.5 V', source: 'iso-16750-2', note: 'usual supply class of 12 V equipment, 9 to 16 V, neighbours start at 8 V and 10.5 V; from memory. Write it yourself on a 24 V side' },
  { key: 'consumer.maximum_voltage', quantity: 'voltage', value: '16 V', range: '15..16.5 V', source: 'iso-16750-2', note: 'usual supply class of 12 V equipment, 9 to 16 V; from memory. Write it yourself on a 24 V side' },
  { key: 'pump.idle_share', quantity: 'ratio', value: '5 %', range: '2..15 %', source: 'common-practice', note: 'electronics and friction of a pump at its lowest speed; common practice, no source' },

  { key: 'controller.wake_voltage', quantity: 'voltage', value: '5 V', range: '3..7 V', source: 'common-practice', note: 'wake input on a 12 V side; common practice, no source' },
  { key: 'controller.output_resistance', quantity: 'resistance', value: '80 mΩ', range: '10..300 mΩ', source: 'common-practice', note: 'semiconductor output of some amperes; common practice, no source' },
  { key: 'controller.pull_resistance', quantity: 'resistance', value: '10 kΩ', range: '1..47 kΩ', source: 'common-practice', note: 'common practice, no source' },
  { key: 'controller.input_resistance', quantity: 'resistance', value: '100 kΩ', range: '20..1000 kΩ', source: 'common-practice', note: 'divider of an input to ground; common practice, no source' },

  { key: 'can.termination', quantity: 'resistance', value: '120 Ω', range: '108..132 Ω', source: 'iso-11898-2', note: 'one at each end of the bus; 118 to 130 in some editions' },
  { key: 'can.input_resistance', quantity: 'resistance', value: '25 kΩ', range: '6..50 kΩ', source: 'iso-11898-2', note: 'internal resistance of one bus pin; from memory' },

  { key: 'connector.pin_resistance', quantity: 'resistance', value: '4 mΩ', range: '1..15 mΩ', source: 'common-practice', note: 'one mated pin with both crimps, small ones at the upper end; common practice, no source' },
  { key: 'splice.wire_resistance', quantity: 'resistance', value: '0.2 mΩ', range: '0.05..1 mΩ', source: 'common-practice', note: 'good crimp or weld; common practice, no source' },
  { key: 'ground_stud.joint_resistance', quantity: 'resistance', value: '0.3 mΩ', range: '0.05..2 mΩ', source: 'common-practice', note: 'bare metal, tight nut; common practice, no source' },
  { key: 'interlock_contact.contact_resistance', quantity: 'resistance', value: '20 mΩ', range: '5..100 mΩ', source: 'common-practice', note: 'small signal contact; common practice, no source' },
];
