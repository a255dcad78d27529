/**
 * A pump or fan for coolant, brake vacuum, steering or air.
 *
 * Fed directly, its brushed motor turns slower on fewer volts and takes less: a resistance. With electronics of its own
 * it takes a power that goes with the cube of its speed (affinity law of turbomachines), whatever the voltage.
 */
import { fromHandbook, optional } from '../part/field.ts';
import { defineKind } from '../part/kind.ts';
import { consumerFailures, consumerFields, consumerRole, currentNow, isRunning, startingSetting, supplyPorts, wireConsumer } from './pieces/consumer.ts';

export const pump = defineKind({
  kind: 'pump',
  title: 'Pump or fan',
  family: 'low_voltage',
  meaning: 'a pump or fan on the low-voltage side',
  fields: {
    ...consumerFields,
    idle_share: fromHandbook('ratio', 'pump.idle_share', 'share of its full power that its electronics and friction take at the lowest speed', { example: '5 %', minimum: 0, maximum: 1 }),
    stall_current: optional('current', 'current when it is blocked', { example: '25 A datasheet', minimum: 0, aboveMinimum: true }),
  },
  settings: {
    speed: optional('ratio', 'speed asked for; unset: standing, or full speed if it runs whenever it is fed', { example: '60 %', minimum: 0, maximum: 1 }),
    starting: startingSetting,
  },
  ports: () => supplyPorts,
  wire: ({ fields, settings }, wiring) => {
    const running = isRunning(fields, settings.speed === undefined ? undefined : settings.speed > 0);
    const speed = settings.speed === undefined || settings.speed <= 0 ? 1 : settings.speed;
    const share = Math.max(LEAST_SHARE, fields.idle_share + (1 - fields.idle_share) * speed ** 3);
    const current = settings.starting === true ? currentNow(fields, true) : fields.current * share;
    wireConsumer(fields, { running, current, draw: fields.runs === 'when_told' ? 'power' : 'resistance' }, wiring);
  },
  roles: ({ name, fields }) => ({ consumers: [consumerRole(name, fields)] }),
  failures: [
    ...consumerFailures('worn brushes, broken winding or dead electronics: takes nothing', 'winding shorted'),
    { code: 'blocked', meaning: 'something holds the rotor: it takes its stall current', likelihood: 3,
      changes: ({ fields }) => [{ add: 'blocked_rotor', a: 'behind_switch', b: 'ground', resistance: fields.rated_voltage / Math.max(stallCurrent(fields) - fields.current, 0.1 * fields.current) }] },
  ],
  observables: [
    { name: 'hum', sense: 'hear', meaning: 'the motor turns or tries to' },
    { name: 'shaking', sense: 'feel', meaning: 'a pump with air in it sounds rough and shakes' },
    { name: 'moving coolant', sense: 'see', meaning: 'in the expansion tank: it pumps' },
  ],
});

/** Keeps its current above zero however slowly it turns. */
const LEAST_SHARE = 1e-3;

/** Blocked, a brushed motor takes what it takes at the moment of starting. */
function stallCurrent(fields: { readonly stall_current: number | undefined; readonly start_current: number | undefined; readonly current: number }): number {
  return fields.stall_current ?? fields.start_current ?? 4 * fields.current;
}
