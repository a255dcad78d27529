/**
 * A module: cells in series (and in parallel groups) in one case with two terminals.
 * Electrically two halves with a tap between them, so that a fault to the case half-way up the stack can be told from
 * one at a pole.
 */
import { count, fromHandbook, nameOf, optional } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { insulationFields, insulationRoles, wireInsulation } from './pieces/insulation.ts';
import { poles } from './pieces/poles.ts';

export const batteryModule = defineKind({
  kind: 'battery_module',
  title: 'Battery module',
  family: 'high_voltage',
  meaning: 'cells in series in one case, with a positive and a negative terminal',
  fields: {
    cell: nameOf('cells', 'the cell it is made of', { example: 'reclaimed' }),
    series: count('cell groups in series between its terminals', { minimum: 1, maximum: 400, example: '12' }),
    parallel: count('cells in parallel in each group; silent means 1', { need: 'optional', minimum: 1, maximum: 500, example: '2' }),
    measured_voltage: optional('voltage', 'between its terminals, read with a meter after hours of rest', { example: '44.61 V measured', minimum: 0, maximum: 1000 }),
    link_resistance: fromHandbook('resistance', 'battery_module.link_resistance', 'of all links and terminals inside it together, without the cells', { example: '0.4 mΩ', minimum: 0, maximum: 1, aboveMinimum: true }),
    ...insulationFields('battery_module.insulation_resistance'),
  },
  settings: {},
  ports: () => poles(3),
  wire: ({ fields, cell }, wiring) => {
    wireInsulation(fields, wiring);
    if (cell === undefined) return;
    const voltage = fields.series * cell.voltage;
    const resistance = (fields.series * cell.resistance) / (fields.parallel ?? 1);
    const tap = wiring.inside('tap');
    const stack = wiring.inside('stack');
    wiring.source('lower_cells', tap, wiring.port('neg'), voltage / 2, resistance / 2);
    wiring.source('upper_cells', stack, tap, voltage / 2, resistance / 2);
    wiring.resistor('links', wiring.port('pos'), stack, fields.link_resistance);
  },
  roles: ({ fields }) => ({
    cells: { positive: 'pos', negative: 'neg', series: fields.series, parallel: fields.parallel ?? 1, cell: fields.cell, measuredVoltage: fields.measured_voltage },
    insulation: insulationRoles(fields, false),
  }),
  failures: [
    { code: 'link_open', meaning: 'a link or a cell inside is broken: no current passes, and the terminals float', likelihood: 2, changes: () => [{ element: 'links', becomes: 'open' }] },
    { code: 'link_resistive', meaning: 'a corroded or loose link inside', likelihood: 4, changes: () => [{ element: 'links', becomes: 'resistive', resistance: 0.02 }] },
    { code: 'cells_worn', meaning: 'the cells have grown to three times their resistance', likelihood: 4, changes: ({ fields, cell }) => (cell ? [{ element: 'lower_cells', becomes: 'resistive', resistance: (fields.series * cell.resistance) / (fields.parallel ?? 1) }, { element: 'upper_cells', becomes: 'resistive', resistance: (fields.series * cell.resistance) / (fields.parallel ?? 1) }] : []) },
    { code: 'leak_positive', meaning: 'the positive terminal leaks to the case: moisture, coolant, a chafed cover', likelihood: 2, changes: () => [{ add: 'fault_pos', a: 'pos', b: 'chassis', resistance: 20e3 }] },
    { code: 'leak_negative', meaning: 'the negative terminal leaks to the case', likelihood: 2, changes: () => [{ add: 'fault_neg', a: 'neg', b: 'chassis', resistance: 20e3 }] },
    { code: 'leak_middle', meaning: 'a cell half-way up the stack leaks to the case: coolant, a swollen cell', likelihood: 3, changes: ({ cell }) => (cell ? [{ add: 'fault_tap', a: 'tap', b: 'chassis', resistance: 20e3 }] : []) },
  ],
  observables: [
    { name: 'terminal voltage', sense: 'read', meaning: 'voltage between its terminals at rest: series count times the cell voltage' },
    { name: 'voltage to the case', sense: 'read', meaning: 'a steady voltage from a terminal to the case that does not decay is a leak' },
    { name: 'swelling', sense: 'see', meaning: 'a bulged case or spread cells: do not use it' },
    { name: 'sweet solvent smell', sense: 'smell', meaning: 'electrolyte has leaked: leave it, air the room' },
    { name: 'warm terminal', sense: 'feel', meaning: 'a loose or corroded joint; feel for heat with a thermometer, never with the hand, while voltage is there' },
  ],
});
