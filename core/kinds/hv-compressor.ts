/** An electric refrigerant compressor: an inverter and a motor in one housing, seen from the high voltage as a constant power. */
import { optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { canFields, canPorts, wireCan } from './pieces/can.ts';
import { controlConsumer, controlSupplyFields, controlSupplyPorts, staysAsleep, wireControlSupply } from './pieces/control-supply.ts';
import { linkRole, smallLinkFields, stageKnee, wireLink } from './pieces/dc-link.ts';
import { filterFields, insulationFields, insulationRoles, wireInsulation } from './pieces/insulation.ts';
import { interlockFields, interlockOpens, interlockPorts, interlockRole, wireInterlock } from './pieces/interlock.ts';
import { poles } from './pieces/poles.ts';

export const hvCompressor = defineKind({
  kind: 'hv_compressor',
  title: 'High-voltage compressor',
  family: 'high_voltage',
  meaning: 'compresses refrigerant with a motor on the high voltage',
  fields: {
    rated_power: required('power', 'highest electric power', { example: '3.5 kW label', minimum: 0, aboveMinimum: true }),
    ...smallLinkFields('hv_compressor.link_capacitance'),
    ...insulationFields('hv_compressor.insulation_resistance'),
    ...filterFields,
    ...controlSupplyFields('hv_compressor.supply_power'),
    ...canFields,
    ...interlockFields,
  },
  settings: { power: optional('power', 'electric power asked for', { example: '1.5 kW', minimum: 0 }) },
  ports: (fields) => [...poles(2), ...controlSupplyPorts(fields), ...canPorts(fields), ...interlockPorts(fields)],
  wire: ({ fields, settings }, wiring) => {
    const asked = Math.min(settings.power ?? 0, fields.rated_power);
    wireLink(fields, wiring);
    wireInsulation(fields, wiring);
    wiring.powerLoad('stage', wiring.port('pos'), wiring.port('neg'), asked, stageKnee(fields));
    wireControlSupply(fields, wiring);
    wireCan(fields, wiring);
    wireInterlock(fields, true, wiring);
  },
  // the motor's windings hang on the direct voltage inside the housing
  roles: ({ name, fields }) => ({
    dcLink: linkRole(fields),
    insulation: insulationRoles(fields, true),
    consumers: [controlConsumer(name, fields)],
    ...interlockRole(fields),
  }),
  failures: [
    { code: 'link_shorted', meaning: 'its power stage is a short between the poles', likelihood: 2, changes: () => [{ element: 'link', becomes: 'shorted', resistance: 0.05 }] },
    { code: 'leak', meaning: 'winding to housing: the wrong oil or moisture in the refrigerant', likelihood: 4, changes: () => [{ add: 'fault_pos', a: 'pos', b: 'chassis', resistance: 60e3 }, { add: 'fault_neg', a: 'neg', b: 'chassis', resistance: 60e3 }] },
    { code: 'does_not_wake', meaning: 'its electronics do not wake although they are fed', likelihood: 2, changes: ({ fields }) => staysAsleep(fields) },
  ],
  failuresByFields: ({ fields }) => (fields.interlock === true ? [{ code: 'plug_not_seated', meaning: 'the high-voltage plug is not pushed home: the interlock loop is open', likelihood: 4, changes: () => interlockOpens(fields) }] : []),
  observables: [
    { name: 'hum', sense: 'hear', meaning: 'it runs' },
    { name: 'insulation resistance, unplugged', sense: 'read', meaning: 'low when the oil is wrong or wet' },
  ],
});
