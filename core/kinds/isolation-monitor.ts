/**
 * An insulation monitoring device. It looks at the chassis through its own resistors, so it is itself the largest leak of a
 * dry car; without its wire to the chassis it sees nothing.
 */
import { flag, fromHandbook, optional } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { canFields, canPorts, wireCan } from './pieces/can.ts';
import { controlConsumer, controlSupplyFields, controlSupplyPorts, staysAsleep, wireControlSupply } from './pieces/control-supply.ts';
import { poles } from './pieces/poles.ts';

export const isolationMonitor = defineKind({
  kind: 'isolation_monitor',
  title: 'Insulation monitor',
  family: 'high_voltage',
  meaning: 'watches the insulation between both high-voltage poles and the chassis',
  fields: {
    internal_resistance: fromHandbook('resistance', 'isolation_monitor.internal_resistance', 'from each pole through the monitor to the chassis', { example: '2.4 MΩ datasheet', minimum: 0, maximum: 1e9, aboveMinimum: true }),
    warn_below: optional('resistance', 'insulation resistance below which it warns', { isLimit: true, example: '200 kΩ datasheet', minimum: 0, aboveMinimum: true }),
    maximum_voltage: optional('voltage', 'highest voltage between its poles', { isLimit: true, example: '1000 V label', minimum: 0, maximum: 3000, aboveMinimum: true }),
    alarm_contact: flag('it has a contact that is closed while it is fed and finds nothing wrong'),
    contact_resistance: fromHandbook('resistance', 'isolation_monitor.contact_resistance', 'of the closed alarm contact; used only when it has one', { example: '1 Ω', minimum: 0, maximum: 1e3, aboveMinimum: true }),
    ...controlSupplyFields('isolation_monitor.supply_power'),
    ...canFields,
  },
  settings: { alarm: flag('it warns: the alarm contact is open') },
  ports: (fields) => [
    ...poles(1),
    { name: 'frame', carries: 'low_voltage', meaning: 'its wire to the chassis', holds: 1 },
    ...controlSupplyPorts(fields),
    ...(fields.alarm_contact === true
      ? [
          { name: 'alarm_a', carries: 'signal', meaning: 'alarm contact', holds: 1 } as const,
          { name: 'alarm_b', carries: 'signal', meaning: 'alarm contact', holds: 1 } as const,
        ]
      : []),
    ...canPorts(fields),
  ],
  wire: ({ fields, settings }, wiring) => {
    wiring.resistor('measure_pos', wiring.port('pos'), wiring.port('frame'), fields.internal_resistance);
    wiring.resistor('measure_neg', wiring.port('neg'), wiring.port('frame'), fields.internal_resistance);
    const fed = wireControlSupply(fields, wiring);
    wireCan(fields, wiring);
    if (fields.alarm_contact !== true) return;
    const half = wiring.inside('alarm');
    wiring.relay('alarm_relay', wiring.port('alarm_a'), half, { coil: [fed, wiring.port('ground')], pickUp: fields.minimum_supply_voltage, dropOut: fields.minimum_supply_voltage, contact: 'makes', resistance: fields.contact_resistance, polarised: true });
    wiring.switch('alarm_contact', half, wiring.port('alarm_b'), settings.alarm !== true, fields.contact_resistance);
  },
  roles: ({ name, fields }) => ({
    isolationMonitor: { warnBelow: fields.warn_below },
    rated: [{ elements: [], voltage: fields.maximum_voltage }],
    insulation: ['pos', 'neg'].map((port) => ({ port, resistance: fields.internal_resistance, capacitance: undefined, acSide: false })),
    consumers: [controlConsumer(name, fields)],
  }),
  failures: [
    { code: 'frame_wire_off', meaning: 'its wire to the chassis is off inside: it sees nothing', likelihood: 4, changes: () => [{ element: 'measure_pos', becomes: 'open' }, { element: 'measure_neg', becomes: 'open' }] },
    { code: 'dead', meaning: 'it does not wake', likelihood: 2, changes: ({ fields }) => [...staysAsleep(fields), ...(fields.alarm_contact === true ? [{ element: 'alarm_relay', becomes: 'stuck_open' } as const] : [])] },
  ],
  observables: [
    { name: 'voltage from each pole to the chassis', sense: 'read', meaning: 'about half the pack’s voltage each when only the monitor leaks' },
    { name: 'warning light', sense: 'see', meaning: 'it warns, or it is not fed' },
  ],
});
