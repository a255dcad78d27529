/** A high-voltage heater, for cabin or battery: a plain resistance, or electronics (or PTC stones) that hold their power. */
import { choice, optional, required } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { canFields, canPorts, wireCan } from './pieces/can.ts';
import { controlConsumer, controlSupplyFields, controlSupplyPorts, staysAsleep, wireControlSupply } from './pieces/control-supply.ts';
import { linkRole, smallLinkFields, stageKnee, wireLink } from './pieces/dc-link.ts';
import { filterFields, insulationFields, insulationRoles, wireInsulation } from './pieces/insulation.ts';
import { interlockFields, interlockOpens, interlockPorts, interlockRole, wireInterlock } from './pieces/interlock.ts';
import { poles } from './pieces/poles.ts';

export const hvHeater = defineKind({
  kind: 'hv_heater',
  title: 'High-voltage heater',
  family: 'high_voltage',
  meaning: 'heats coolant or air from the high voltage',
  fields: {
    rated_power: required('power', 'highest heating power at its rated voltage', { example: '5 kW label', minimum: 0, aboveMinimum: true }),
    rated_voltage: required('voltage', 'voltage its power is stated for', { example: '350 V label', minimum: 0, maximum: 1500, aboveMinimum: true }),
    behaves: choice(['resistance', 'constant_power'], 'how its power follows the voltage', { explain: { resistance: 'with the square of the voltage', constant_power: 'electronics or PTC stones hold the power' } }),
    ...smallLinkFields('hv_heater.link_capacitance'),
    ...insulationFields('hv_heater.insulation_resistance'),
    ...filterFields,
    ...controlSupplyFields('hv_heater.supply_power'),
    ...canFields,
    ...interlockFields,
  },
  settings: { power: optional('power', 'heating power asked for, at its rated voltage', { example: '2 kW', minimum: 0 }) },
  ports: (fields) => [...poles(2), ...controlSupplyPorts(fields), ...canPorts(fields), ...interlockPorts(fields)],
  wire: ({ fields, settings }, wiring) => {
    const [pos, neg] = [wiring.port('pos'), wiring.port('neg')];
    const asked = Math.min(settings.power ?? 0, fields.rated_power);
    const heats = asked > 0;
    wireLink(fields, wiring);
    wireInsulation(fields, wiring);
    // the switch stands for the element: open when nothing is asked, its full resistance when it is stuck
    wiring.switch('element', pos, neg, heats && fields.behaves === 'resistance', fields.rated_voltage ** 2 / (heats ? asked : fields.rated_power));
    if (fields.behaves === 'constant_power') wiring.powerLoad('stage', pos, neg, asked, stageKnee(fields));
    wireControlSupply(fields, wiring);
    wireCan(fields, wiring);
    wireInterlock(fields, true, wiring);
  },
  roles: ({ name, fields }) => ({
    dcLink: linkRole(fields),
    insulation: insulationRoles(fields, false),
    consumers: [controlConsumer(name, fields)],
    ...interlockRole(fields),
  }),
  failures: [
    { code: 'stuck_on', meaning: 'its power switch is a short: it heats whenever there is high voltage, also during precharge', likelihood: 1, changes: () => [{ element: 'element', becomes: 'stuck_closed' }] },
    { code: 'leak', meaning: 'the heating element leaks to the housing: coolant has got in', likelihood: 4, changes: () => [{ add: 'fault_pos', a: 'pos', b: 'chassis', resistance: 30e3 }] },
    { code: 'does_not_wake', meaning: 'its electronics do not wake although they are fed', likelihood: 2, changes: ({ fields }) => staysAsleep(fields) },
  ],
  failuresByFields: ({ fields, settings }) => [
    ...(fields.behaves === 'resistance' && (settings.power ?? 0) > 0 ? [{ code: 'element_open', meaning: 'the heating element is burnt through', likelihood: 3, changes: () => [{ element: 'element', becomes: 'stuck_open' } as const] }] : []),
    ...(fields.interlock === true ? [{ code: 'plug_not_seated', meaning: 'the high-voltage plug is not pushed home: the interlock loop is open', likelihood: 4, changes: () => interlockOpens(fields) }] : []),
  ],
  observables: [
    { name: 'resistance between its poles, unplugged', sense: 'read', meaning: 'high when off; a low value is a stuck power switch' },
    { name: 'warm coolant', sense: 'feel', meaning: 'it heats' },
  ],
});
