/**
 * The power stage that drives a motor, as the high-voltage network sees it: capacitor, what it draws or gives back, its own
 * discharge, insulation, and its electronics on the 12 V side. Inverter and drive unit share it.
 */
import type { Port } from '../../part/kind.ts';
import type { Failure } from '../../part/failure.ts';
import type { RealisedFields } from '../../part/field.ts';
import type { Roles } from '../../part/role.ts';
import type { Wiring } from '../../part/wiring.ts';
import { flag, optional } from '../../part/field.ts';
import { canFields, canPorts, wireCan } from './can.ts';
import { controlConsumer, controlSupplyFields, controlSupplyPorts, staysAsleep, wireControlSupply } from './control-supply.ts';
import { linkRole, ownLinkFields, stageKnee, wireLink } from './dc-link.ts';
import { filterFields, insulationFields, insulationRoles, wireInsulation } from './insulation.ts';
import { interlockFields, interlockOpens, interlockPorts, interlockRole, wireInterlock } from './interlock.ts';
import { poles } from './poles.ts';

/** Voltage at which a capacitor counts as discharged: limit of voltage class A (UN R100, ISO 6469-3) [V]. */
const DISCHARGED = 60;

/** @param insulationRow catalogue row of the usual insulation resistance */
export const tractionFields = (insulationRow: string) => ({
  ...ownLinkFields,
  active_discharge_time: optional('time', 'its own active discharge, from its highest voltage to 60 V; silent: it has none', { example: '3 s datasheet', minimum: 0, maximum: 600, aboveMinimum: true }),
  continuous_current: optional('current', 'direct current it may draw for ever', { isLimit: true, example: '180 A datasheet', minimum: 0, aboveMinimum: true }),
  peak_current: optional('current', 'highest direct current it may draw', { isLimit: true, example: '400 A datasheet', minimum: 0, aboveMinimum: true }),
  continuous_power: optional('power', 'power it may draw for ever', { isLimit: true, example: '50 kW datasheet', minimum: 0, aboveMinimum: true }),
  peak_power: optional('power', 'highest power it may draw', { isLimit: true, example: '110 kW label', minimum: 0, aboveMinimum: true }),
  ...insulationFields(insulationRow),
  ...filterFields,
  ...controlSupplyFields('traction.supply_power'),
  ...canFields,
  ...interlockFields,
}) as const;

export const tractionSettings = {
  draw: optional('power', 'power it takes from the high voltage; negative when it gives back', { example: '35 kW' }),
  discharge: flag('it is told to discharge its capacitor'),
} as const;

export type TractionValues = RealisedFields<ReturnType<typeof tractionFields>>;
interface TractionNow { readonly name: string; readonly fields: TractionValues }
interface TractionAsked { readonly draw?: number | undefined; readonly discharge?: boolean | undefined }

export const tractionPorts = (fields: Partial<TractionValues>): readonly Port[] => [
  ...poles(2),
  ...controlSupplyPorts(fields),
  ...canPorts({ can: true }),
  ...interlockPorts(fields),
];

/** Elements `link`, `bleeder`, `discharge`, `leak_pos`, `leak_neg`, `filter_pos`, `filter_neg`, `stage` (draws what is asked, 0 W at rest), and those of the 12 V side. */
export function wireTraction(fields: TractionValues, asked: TractionAsked, wiring: Wiring): void {
  const [pos, neg] = [wiring.port('pos'), wiring.port('neg')];
  wireLink(fields, wiring);
  wireInsulation(fields, wiring);
  const discharge = dischargeResistance(fields);
  if (discharge !== undefined) wiring.switch('discharge', pos, neg, asked.discharge === true, discharge);
  wiring.powerLoad('stage', pos, neg, asked.draw ?? 0, stageKnee(fields));
  wireControlSupply(fields, wiring);
  wireCan(fields, wiring);
  wireInterlock(fields, true, wiring);
}

/** @param acSide true: motor windings hang on the direct voltage without separation, so 500 Ω/V counts (UN R100) */
export const tractionRoles = ({ name, fields }: TractionNow, acSide: boolean): Roles => ({
  dcLink: linkRole(fields, fields.active_discharge_time),
  traction: { continuousCurrent: fields.continuous_current, peakCurrent: fields.peak_current, peakPower: fields.peak_power },
  rated: [{ elements: ['stage'], positive: 'pos', negative: 'neg', continuousCurrent: fields.continuous_current, peakCurrent: fields.peak_current, continuousPower: fields.continuous_power, peakPower: fields.peak_power }],
  insulation: insulationRoles(fields, acSide),
  consumers: [controlConsumer(name, fields)],
  ...interlockRole(fields),
});

export const tractionFailures: readonly Failure<TractionNow>[] = [
  { code: 'link_shorted', meaning: 'a power transistor or the capacitor is a short between the poles', likelihood: 2, changes: () => [{ element: 'link', becomes: 'shorted', resistance: 0.02 }] },
  { code: 'leak_positive', meaning: 'the positive side leaks to the case', likelihood: 1, changes: () => [{ add: 'fault_pos', a: 'pos', b: 'chassis', resistance: 20e3 }] },
  { code: 'leak_negative', meaning: 'the negative side leaks to the case', likelihood: 1, changes: () => [{ add: 'fault_neg', a: 'neg', b: 'chassis', resistance: 20e3 }] },
  { code: 'does_not_wake', meaning: 'its electronics do not wake although they are fed', likelihood: 3, changes: ({ fields }) => staysAsleep(fields) },
];

/** Failures of things that only some have: active discharge, an interlock contact. */
export const tractionFailuresByFields = ({ fields }: TractionNow): readonly Failure<TractionNow>[] => [
  ...(dischargeResistance(fields) === undefined ? [] : [{ code: 'discharge_dead', meaning: 'its active discharge does nothing', likelihood: 2, changes: () => [{ element: 'discharge', becomes: 'stuck_open' } as const] }]),
  ...(fields.interlock === true ? [{ code: 'plug_not_seated', meaning: 'the high-voltage plug is not pushed home: the interlock loop is open', likelihood: 4, changes: () => interlockOpens(fields) }] : []),
];

/** Resistor that takes the capacitor from its highest voltage to 60 V in the stated time: t / (C ln(U/60)). */
function dischargeResistance(fields: TractionValues): number | undefined {
  if (fields.active_discharge_time === undefined || fields.maximum_voltage <= DISCHARGED) return undefined;
  return fields.active_discharge_time / (fields.link_capacitance * Math.log(fields.maximum_voltage / DISCHARGED));
}
