/** Shut-down: contacts open, none welded, capacitors empty, and the pack split before anybody reaches in. */
import type { State } from '../car/state.ts';
import { printValue } from '../quantity/print-value.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';
import { stopwatch, voltmeter } from './instruments.ts';
import { passiveWait } from './passive-wait.ts';
import { linksOf, netOf, voltageBetween } from './plan.ts';
import type { Plan } from './plan.ts';
import { splitStep } from './reach-in.ts';
import { EMPTY, readMeasure } from './read-measure.ts';
import { readyMode } from './running-steps.ts';
import type { Measure, StepDraft } from './step.ts';
import { weldSteps, weldSuspects, weldWords } from './weld-steps.ts';

/** [s] [iec-60204-1] 6.2.4, a rule for machines; makers' practice for bleeders alone (from memory). */
const ACTIVE_TIME = 5;
const PASSIVE_TIME = 120;

interface Live { readonly mode: string; readonly links: ReturnType<typeof linksOf> }

/** Links that a mode puts on more than half of the pack's voltage, by mode. */
function liveLinks({ car, ask, packVoltage }: Plan): readonly Live[] {
  return [...car.modes.keys()].map((mode) => ({ mode, links: linksOf(car).filter(({ positive, negative }) => Math.abs(voltageBetween(ask, { mode }, positive, negative)) > packVoltage / 2) }));
}

export function shutDownSteps(plan: Plan): StepDraft[] {
  const { car, ask, start, packVoltage } = plan;
  const mode = readyMode(plan);
  const [link] = linksOf(car);
  if (!link || start === undefined || mode === undefined || packVoltage <= 0) return [];
  const off: State = { mode: start };
  const net = netOf(car);
  const same = linksOf(car).filter(({ positive }) => net(positive) === net(link.positive)).map(({ part }) => part.name);
  const isLive = liveLinks(plan).find((one) => one.mode === mode)?.links.length;
  if (isLive === undefined || isLive === 0) return [];
  const isClassB = Math.abs(voltageBetween(ask, { mode }, link.positive, link.negative)) > CLASS_A_HIGHEST;
  const contacts = plan.closedIn(mode);
  const measure: Measure = { is: 'voltage', a: link.positive, b: link.negative };
  const live = readMeasure(car, ask, { mode }, measure);
  const welds = weldSteps(plan, off, 'shut_down', 'shut-down');
  return [
    {
      id: 'shut-down.contacts', phase: 'shut_down', title: 'Key off: contactors open', about: contacts, hazard: 'class_b', isHoldPoint: true, isWayBack: true, state: off,
      action: `From mode ${mode}, key off. One clack for each of ${contacts.join(', ')}. After the discharge, read ${link.positive} against ${link.negative}.`,
      measure, instrument: voltmeter(packVoltage), ...(live === undefined ? {} : { noEffect: live }), suspects: weldSuspects(plan),
      expect: 'Near 0 V in the end.', instead: `The pack’s voltage that stays: ${weldWords(plan, welds)}`,
      limit: { sense: 'at_most', value: CLASS_A_HIGHEST, source: 'un-r100' },
    },
    // what has carried current may have welded since it was read last
    ...welds.map((step): StepDraft => ({ ...step, isWayBack: true })),
    ...(isClassB ? [dischargeStep(plan, mode, same)] : []),
    splitStep(plan, { id: 'shut-down.split', phase: 'shut_down', title: 'Split again before anybody reaches in' }, { mode }),
  ];
}

/** Time to 60 V as the car does it by itself; what the cover says is the time with nothing active. */
function dischargeStep({ car, ask, packVoltage }: Plan, mode: string, same: readonly string[]): StepDraft {
  const [link] = linksOf(car);
  const has = (what: 'activeDischarge' | 'bleeder'): boolean => same.some((name) => car.parts.get(name)!.roles.dcLink![what] !== undefined);
  const [isActive, hasBleeder] = [has('activeDischarge'), has('bleeder')];
  const wait = passiveWait(car, ask);
  const cover = wait.is === 'bleeders' ? `Write ${printValue(wait.wait, 'time', { rounding: 'up' })} on the cover, the time without anything active${isActive ? ': an active discharge is not there when its electronics or its 12 V are gone' : ''}.` : 'No waiting time on the cover can be trusted: write “measure” there.';
  return {
    id: 'shut-down.discharge', phase: 'shut_down', title: `Below ${EMPTY} V`, about: same, hazard: 'class_b', isHoldPoint: true, isWayBack: true, state: { mode },
    action: `From mode ${mode}, meter on ${link!.positive} and ${link!.negative}. Key off; time until it is below ${EMPTY} V.`,
    measure: { is: 'time', of: 'empty', links: same, through: undefined, voltageAt: [link!.positive, link!.negative] }, instrument: stopwatch(packVoltage),
    expect: isActive ? 'Seconds: the active discharge works.' : hasBleeder ? 'The bleeders alone do it.' : 'Nothing in the file empties these capacitors: they stay at the pack’s voltage for hours.',
    instead: isActive ? 'Much longer: the active discharge does not work, or a contact is welded.' : hasBleeder ? 'Much longer: a bleeder is broken, or a contact is welded.' : 'Do not touch anything; fit a bleed resistor.',
    limit: { sense: 'at_most', value: isActive ? ACTIVE_TIME : PASSIVE_TIME, source: isActive ? 'iec-60204-1' : 'common-practice' },
    cautions: [`Seconds are the maker’s word until you have read them. ${cover}`],
    unknown: isActive || hasBleeder ? [] : same.map((name) => `parts.${name}.bleeder`),
  };
}
