/** Insulation of every high-voltage part and cable while nothing is joined: faults are found where they are, one at a time. */
import type { CarPart } from '../car/car.ts';
import { mainsRuns } from '../car/mains-runs.ts';
import type { State } from '../car/state.ts';
import { printValue } from '../quantity/print-value.ts';
import { insulationTester, testVoltageFor, voltmeter } from './instruments.ts';
import type { Plan } from './plan.ts';
import type { StepDraft } from './step.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';

/** What dry cable insulation has at least [ohm]; common practice, no source. */
const CABLE_LEAST = 100e6;

export function insulationSteps(plan: Plan): StepDraft[] {
  const { car, packVoltage, perVolt, highVoltageRuns } = plan;
  if (packVoltage <= CLASS_A_HIGHEST) return [];
  const all = [...car.runs.values()].filter(({ carries }) => carries === 'high_voltage').map(({ name }) => name);
  const state: State = { without: all };
  const mains = mainsRuns(car);
  const least = perVolt * packVoltage;
  const parts = [...car.parts.values()].filter(({ kind, roles, missing }) => kind.family === 'high_voltage' && kind.standsBeside !== true && ((roles.insulation ?? []).length > 0 || missing.length > 0));
  const steps = parts.flatMap((part) => (part.roles.cells ? [moduleStep(part, state)] : part.roles.mains?.inlet ? [] : [partStep(part, state, packVoltage, least)]));

  const cables = highVoltageRuns.flatMap((name) => { const run = car.runs.get(name); return run && run.conductor?.shape.form !== 'flat' ? [run] : []; });
  for (const { name, conductor, from, to } of cables) {
    const volts = testVoltageFor(packVoltage, conductor?.voltageRating);
    steps.push({
      id: `insulation.${name}`, phase: 'insulation', title: `Cable ${name}`, about: [name], hazard: 'class_b', isHoldPoint: true, state,
      action: `Both ends of ${name} (${from} to ${to}) free and apart. Tester from the conductor to ${conductor?.isScreened ? 'its screen, and from the screen to the bodywork it lies on' : 'the bodywork it lies on'}, one minute.`,
      ...(volts === undefined ? {} : { instrument: insulationTester(volts, packVoltage) }),
      expect: 'More than the tester can show.', instead: 'A nick, a pinched screen or water: the cable is not built in.',
      limit: { sense: 'at_least', value: CABLE_LEAST, source: 'common-practice' },
      cautions: ['The tester’s own voltage shocks: hold the insulated parts only, and let it discharge the cable afterwards.'],
    });
  }
  const bars = highVoltageRuns.filter((name) => car.runs.get(name)?.conductor?.shape.form === 'flat');
  if (bars.length > 0) steps.push({ id: 'insulation.bars', phase: 'insulation', title: 'Busbars', about: bars, hazard: 'none', isHoldPoint: false, action: `Look at ${bars.join(', ')} before they go in: covering whole, no burr, no chip, nothing between them and the case.`, expect: 'Whole covering; where it is bare, air and a fixed spacer on every side.', instead: 'Cover it anew before it goes in.' });
  const side = [...mains.keys()];
  if (side.length > 0) steps.push({ id: 'insulation.mains', phase: 'insulation', title: 'Mains side', about: side, hazard: 'class_b', isHoldPoint: true, state, action: `Charger unplugged from ${side.join(', ')}. Tester with 500 V from line and neutral together to the protective conductor.`, instrument: insulationTester(500, 500), expect: 'Far more than 1 MΩ.', instead: 'Find the wet or chafed place on the mains side first; no plug goes in before.', limit: { sense: 'at_least', value: 1e6, source: 'un-r100' } });
  return steps;
}

function partStep(part: CarPart, state: State, packVoltage: number, least: number): StepDraft {
  const { name, names, roles, fields, missing } = part;
  const poles = (roles.insulation ?? []).filter(({ port }) => !roles.mains?.lines.includes(port) && port !== roles.mains?.neutral).map(({ port }) => names.of(port));
  const bears = roles.dcLink?.maximumVoltage ?? (fields['maximum_voltage'] as number | undefined);
  const volts = testVoltageFor(packVoltage, bears);
  const isOwnLeak = roles.isolationMonitor !== undefined;
  const frame = isOwnLeak ? ' Its wire to the chassis is on: its own measuring resistors are what the tester shows.' : '';
  return {
    id: `insulation.${name}`, phase: 'insulation', title: `Insulation of ${name}`, about: [name], hazard: 'class_b', isHoldPoint: missing.length === 0 && !isOwnLeak, state,
    action: volts === undefined
      ? `${name} bears only ${bears === undefined ? 'an unknown voltage' : printValue(bears, 'voltage')}: no usual test voltage fits between that and half the pack’s voltage. Test it the maker’s way, or leave it unplugged while the rest is tested.`
      : `High-voltage plug off, cover on. Tester from ${poles.length > 0 ? poles.join(', then from ') : 'each high-voltage pole'} to its case, one minute each; the lower reading counts.${frame}`,
    ...(poles.length > 0 && volts !== undefined ? { measure: { is: 'insulation', poles, b: 'chassis' } as const } : {}),
    ...(volts === undefined ? {} : { instrument: insulationTester(volts, packVoltage) }),
    expect: `Far above ${printValue(least, 'resistance')}: that is what all parts, side by side on the chassis, must have together.`,
    limit: { sense: 'at_least', value: least, source: 'un-r100' },
    cautions: [...(roles.dcLink ? ['Its capacitor must be empty first: read 0 V between the poles. The tester charges the filter capacitors; let it discharge them before touching anything.'] : []), ...(volts !== undefined && volts < packVoltage ? [`It bears ${printValue(bears!, 'voltage')}, so ${volts} V is less than the pack’s highest voltage: a fault that only strikes through above that stays hidden.`] : [])],
    unknown: missing,
  };
}

/** A module cannot be made dead: a voltmeter finds its leak, and an insulation tester has no business on it. */
function moduleStep({ name, names, roles, missing }: CarPart, state: State): StepDraft {
  const [positive, negative] = [names.of(roles.cells!.positive), names.of(roles.cells!.negative)];
  return {
    id: `insulation.${name}`, phase: 'insulation', title: `Module ${name}`, about: [name], hazard: 'class_a', isHoldPoint: true, state,
    action: `Module in its place, nothing joined to it. Voltmeter from ${positive} to the bodywork; write it down; then from ${negative} (the same, with the other sign).`,
    measure: { is: 'voltage', a: positive, b: 'chassis' }, instrument: voltmeter(CLASS_A_HIGHEST),
    expect: 'A few volts at the most, which the meter itself makes.', instead: 'A steady voltage near the module’s own is a leak at the other pole; half of it, a leak in the middle. The module is not built in.',
    cautions: ['Never put an insulation tester on a module: it is live, and its cells’ boards do not bear the test voltage.'],
    unknown: missing,
  };
}
