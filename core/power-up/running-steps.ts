/** Modes with the pack joined: precharge watched, contactors, DC-DC, the other modes, driven wheels on stands, shut-down. */
import type { Car } from '../car/car.ts';
import type { State } from '../car/state.ts';
import { printValue } from '../quantity/print-value.ts';
import { coilContacts, workedSettings, workedValues } from '../topics/modes/mode-graph.ts';
import { settingIn } from '../topics/modes/situation.ts';
import { clampMeter, stopwatch, voltmeter } from './instruments.ts';
import { suppliesWithPack } from './low-voltage-steps.ts';
import { busIsolationSteps } from './pack-steps.ts';
import { hasLimitedSource, isPlugged, linksOf, netOf, voltageBetween } from './plan.ts';
import type { Plan } from './plan.ts';
import { EMPTY, FULL } from './read-measure.ts';
import type { StepDraft } from './step.ts';
import { CLASS_A_HIGHEST } from '../physics/voltage-class.ts';

const LOW_VOLTAGE = 32;
/** Power at which wheels turn on stands and little can happen [W]; our choice. */
const GENTLE = 500;
/** [s] [iec-60204-1] 6.2.4, a rule for machines; makers' practice for bleeders alone (from memory). */
const ACTIVE_TIME = 5;
const PASSIVE_TIME = 120;

interface Live { readonly mode: string; readonly links: ReturnType<typeof linksOf> }

/** Links that a mode puts on more than half of the pack's voltage, by mode. */
function liveLinks({ car, ask, packVoltage }: Plan): readonly Live[] {
  return [...car.modes.keys()].map((mode) => ({ mode, links: linksOf(car).filter(({ positive, negative }) => Math.abs(voltageBetween(ask, { mode }, positive, negative)) > packVoltage / 2) }));
}

/** A precharge contact is closed in the mode. */
function isPrecharge({ car, closedIn }: Plan, mode: string): boolean {
  return closedIn(mode).some((name) => car.parts.get(name)?.roles.prechargeResistor !== undefined);
}

export function prechargeSteps(plan: Plan): StepDraft[] {
  const { car, ask, packVoltage } = plan;
  return [...car.modes.keys()].flatMap((mode): StepDraft[] => {
    const by = plan.closedIn(mode).map((name) => car.parts.get(name)!).find(({ roles }) => roles.prechargeResistor) ?? (hasLimitedSource(car, ask, mode) ? [...car.parts.values()].find(({ roles }) => roles.prechargeConverter) : undefined);
    const [link] = linksOf(car);
    if (!by || !link) return [];
    const state: State = { mode };
    const same = linksOf(car).filter(({ positive }) => netOf(car)(positive) === netOf(car)(link.positive)).map(({ part }) => part.name);
    const common = { phase: 'precharge' as const, about: [mode, by.name, link.part.name], hazard: isPlugged(car, car.modes.get(mode)!.set) ? 'class_b' as const : 'class_b' as const };
    const resistor = by.roles.prechargeResistor;
    const steps: StepDraft[] = [{
      ...common, id: `precharge.${mode}.link`, title: `${by.name} fills the capacitors, mode ${mode}`, isHoldPoint: true, state,
      action: `${resistor ? 'Main contactor not to be closed: take its coil wire off for this step. ' : ''}Meter on ${link.positive} and ${link.negative} before anything is switched. Mode ${mode}; watch it rise, switch off if it does not rise at once or stops below ${Math.round(FULL * 100)} % of the pack.`,
      measure: { is: 'voltage', a: link.positive, b: link.negative }, instrument: voltmeter(packVoltage),
      expect: 'It rises fast and comes to rest at the pack’s voltage. At rest lower: something takes current while it fills, and the contactor must not close.',
      cautions: resistor ? [`Onto a short the resistor takes ${printValue(packVoltage ** 2 / resistor.resistance, 'power')}: no longer than the mode says, and let it cool before the next try.`] : [],
    }];
    if (resistor) {
      steps.push({ ...common, id: `precharge.${mode}.time`, title: `How long it takes, mode ${mode}`, isHoldPoint: false, state, action: `Once more, from empty: time until the meter passes ${Math.round(FULL * 100)} % of the pack’s voltage.`, measure: { is: 'time', of: 'fill', links: same, through: by.name, voltageAt: [link.positive, link.negative] }, instrument: { ...stopwatch(packVoltage), fixed: 0.1 }, expect: `At once: the resistor is bridged or the contactor welded. Longer: more capacitance, a wrong resistor, or something that takes current. Under half a second a film of the meter tells more than a thumb.` });
    }
    return steps;
  });
}

export function readySteps(plan: Plan): StepDraft[] {
  const { car, ask, packVoltage } = plan;
  const mode = readyMode(plan);
  if (mode === undefined) return [];
  const state: State = { mode };
  const closed = plan.closedIn(mode);
  const contacts = coilContacts(car).filter(({ part }) => closed.includes(part)).map(({ part }) => car.parts.get(part)!);
  const [link] = linksOf(car);
  const steps: StepDraft[] = [];
  for (const { name, names, roles } of contacts) {
    const contact = roles.switching!.find(({ by }) => by === 'coil')!;
    steps.push({ id: `ready.contact.${name}`, phase: 'ready', title: `${name} closed`, about: [name, mode], hazard: 'class_b', isHoldPoint: true, state, action: `Mode ${mode}. One clack each. Read across ${names.of(contact.a)} and ${names.of(contact.b)}.`, measure: { is: 'voltage', a: names.of(contact.a), b: names.of(contact.b) }, instrument: voltmeter(packVoltage), expect: 'Millivolts. Anything more: it did not close, and current flows past it through the precharge path.' });
  }
  if (link) steps.push({ id: `ready.link.${link.part.name}`, phase: 'ready', title: 'The bus is at the pack’s voltage', about: [link.part.name, mode], hazard: 'class_b', isHoldPoint: true, state, action: `Read ${link.positive} against ${link.negative}.`, measure: { is: 'voltage', a: link.positive, b: link.negative }, instrument: voltmeter(packVoltage), expect: 'The pack’s voltage, right way round.' });
  for (const { name, names, roles } of plan.batteries) {
    const battery = roles.lowVoltageBattery!;
    const supplies = [...car.parts.values()].filter((part) => part.roles.lowVoltageSupply).map((part) => part.name);
    if (supplies.length > 0) steps.push({ id: `ready.dcdc.${name}`, phase: 'ready', title: `${supplies.join(', ')} feeds ${name}`, about: [...supplies, name], hazard: 'class_b', isHoldPoint: true, state, action: `Same mode. Read the posts of ${name}.`, measure: { is: 'voltage', a: names.of(battery.positive), b: names.of(battery.negative) }, instrument: voltmeter(LOW_VOLTAGE), expect: 'About a volt above its rest voltage. Unchanged: the DC-DC does not run.', ...(battery.charge ? { limit: { sense: 'between', value: battery.charge.least, to: battery.charge.most, source: 'common-practice' } as const } : {}) });
  }
  const indicators = [...car.parts.values()].filter(({ names, roles }) => { const solved = roles.indicator ? ask.solve(state) : undefined; return solved?.outcome === 'solved' && Math.abs(solved.currentOf(names.of(roles.indicator!.element))) > 1e-3; }).map(({ name }) => name);
  steps.push(indicators.length > 0
    ? { id: 'ready.indication', phase: 'ready', title: 'The driver is told', about: indicators, hazard: 'class_b', isHoldPoint: true, state, action: `Look at ${indicators.join(', ')} from the driver’s seat.`, expect: 'Lit. From now on the vehicle may move when the pedal is touched.' }
    : { id: 'ready.indication', phase: 'ready', title: 'The driver is told', about: [mode], hazard: 'class_b', isHoldPoint: true, state, action: 'See that something tells the driver that the vehicle can move: a lamp, a word on the display.', expect: 'The file shows no indicator that is lit in this mode.', unknown: ['parts: an indicator'] });
  return [...steps, ...suppliesWithPack(plan, mode), ...busIsolationSteps(plan, mode), ...otherModeSteps(plan, mode)];
}

/** The mode that closes most contacts, no precharge among them, nothing driven and nothing plugged in. */
export function readyMode(plan: Plan): string | undefined {
  const { car, closedIn, driveModes } = plan;
  return [...car.modes.values()].filter(({ name, set }) => closedIn(name).length > 0 && !driveModes.includes(name) && !isPlugged(car, set) && !isPrecharge(plan, name))
    .reduce<{ name: string; count: number } | undefined>((best, { name }) => (best === undefined || closedIn(name).length > best.count ? { name, count: closedIn(name).length } : best), undefined)?.name;
}

/** Charging modes: pilot, link, 12 V. */
function otherModeSteps(plan: Plan, ready: string): StepDraft[] {
  const { car, ask, packVoltage, driveModes } = plan;
  const inlets = [...car.parts.values()].filter(({ roles }) => roles.mains?.inlet);
  const levels = new Set<string>();
  const isNewLevel = (inlet: string, volts: number): boolean => { const level = `${inlet} ${Math.round(volts)}`; return !levels.has(level) && levels.add(level) !== undefined; };
  return [...car.modes.values()].filter(({ name }) => name !== ready && name !== plan.start && !driveModes.includes(name)).flatMap(({ name: mode, set }): StepDraft[] => {
    if (!isPlugged(car, set)) return [];
    const state: State = { mode };
    const pilots = inlets.flatMap(({ name, names, ports, roles }): StepDraft[] => (ports.some((port) => port.name === 'pilot') && isNewLevel(name, voltageBetween(ask, state, names.of('pilot'), names.of(roles.mains!.earth))) ? [{
      id: `charge.${mode}.pilot.${name}`, phase: 'charge', title: `Pilot in mode ${mode}`, about: [name, mode], hazard: 'class_b', isHoldPoint: true, state,
      action: `Cable of a station that has its own residual-current protection into ${name}. Mode ${mode}. Read ${names.of('pilot')} against ${names.of(roles.mains!.earth)}: the positive half, with an instrument made for it; a multimeter shows the mean once the station sends its pulses.`,
      measure: { is: 'voltage', a: names.of('pilot'), b: names.of(roles.mains!.earth) }, instrument: voltmeter(600),
      expect: '12 V: the station sees no vehicle. 9 V: it sees one. 6 V: it is asked to charge.',
      cautions: ['Mains beside it: keep out of the inlet with anything but the two insulated tips, or read at the charger’s plug.'],
    }] : []));
    const solved = ask.solve(state);
    const charger = [...car.parts.values()].find(({ roles }) => roles.feedsPack);
    const run = charger && [...car.runs.values()].find(({ from, to, carries }) => carries === 'high_voltage' && [from, to].includes(charger.names.of(charger.roles.feedsPack!.positive)));
    if (solved.outcome !== 'solved' || !charger || !run || Math.abs(solved.currentOf(run.name)) < 0.1) return pilots;
    return [...pilots, {
      id: `charge.${mode}.current`, phase: 'charge', title: `Charging current in mode ${mode}`, about: [charger.name, mode], hazard: 'class_b', isHoldPoint: true, state,
      action: `Clamp around ${run.name}. Let it charge for ten minutes; feel with a thermometer along inlet, cable and ${charger.name}.`,
      measure: { is: 'current', element: run.name, isReversed: run.to === charger.names.of(charger.roles.feedsPack!.positive) }, instrument: clampMeter(packVoltage),
      expect: 'Steady; nothing hotter than a hand bears. It stops when the plug’s button is pressed, before the plug comes out.',
    }];
  });
}

export function driveSteps(plan: Plan): StepDraft[] {
  const { car, packVoltage } = plan;
  const [mode] = plan.driveModes;
  const movers = [...car.parts.values()].filter(({ roles }) => roles.traction);
  if (movers.length === 0) return [];
  if (mode === undefined) return [{ id: 'drive', phase: 'drive', title: 'Wheels turn', about: movers.map(({ name }) => name), hazard: 'moving', isHoldPoint: true, action: 'No mode of the file asks for power at the wheels, so nothing can be said of what the meters show.', unknown: ['modes: one that sets the draw of what drives'] }];
  const gentle = gentleState(car, mode, movers.map(({ name }) => name));
  const steps: StepDraft[] = movers.flatMap((part): StepDraft[] => {
    const positive = part.names.of(part.roles.dcLink?.positive ?? 'pos');
    const run = [...car.runs.values()].find(({ from, to }) => from === positive || to === positive);
    return run ? [{
      id: `drive.current.${part.name}`, phase: 'drive', title: `${part.name} at ${printValue(GENTLE, 'power')}`, about: [part.name, mode], hazard: 'moving', isHoldPoint: true, state: gentle,
      action: `Wheels clear of the ground. Enter drive, release the brake, the least pedal that turns the wheels; hold it at about ${printValue(GENTLE, 'power')}. Clamp around ${run.name}.`,
      measure: { is: 'current', element: run.name, isReversed: run.from === positive }, instrument: clampMeter(packVoltage),
      expect: 'The wheels turn the way the selector says, smoothly, and stop when the pedal is let go. Turning by themselves, or against the selector: off at once.',
      cautions: ['A free wheel on a differential runs at twice the speed when the other stands. Keep it slow; drive shafts on drooping suspension stand at an angle they are not made for.'],
    }] : [];
  });
  return [...steps, ...directionSteps(plan, mode, gentle)];
}

/** The drive mode with only so much power asked that little can happen. */
function gentleState(car: Car, mode: string, movers: readonly string[]): State {
  const set = Object.fromEntries(movers.flatMap((name) => {
    const asked = Object.entries(car.modes.get(mode)!.set[name] ?? {}).filter(([, value]) => typeof value === 'number' && value !== 0);
    return asked.length === 0 ? [] : [[name, Object.fromEntries(asked.map(([setting, value]) => [setting, Math.min(Math.abs(value as number), GENTLE)]))]];
  }));
  return { mode, set };
}

/** The other direction: another word of a selector that the drive mode sets. */
function directionSteps({ car, start }: Plan, mode: string, gentle: State): StepDraft[] {
  const selectors = workedSettings(car).flatMap(({ part, setting }) => {
    const now = settingIn(car, { mode }, part, setting);
    const parked = start === undefined ? undefined : settingIn(car, { mode: start }, part, setting);
    const before = (car.build.modes.get(mode)?.from ?? []).map((from) => settingIn(car, { mode: from }, part, setting));
    // a selector is moved between ready and drive; a key is not
    if (typeof now !== 'string' || now === parked || before.every((value) => value === now)) return [];
    const others = workedValues(car, part, setting).filter((word) => word !== now && word !== parked && !before.includes(word as string)) as string[];
    return others.map((word) => ({ part, setting, word }));
  });
  if (selectors.length === 0) {
    return [{ id: 'drive.direction', phase: 'drive', title: 'The other direction', about: [mode], hazard: 'moving', isHoldPoint: true, state: gentle, action: 'Standing still, foot on the brake, select the other direction. The least pedal that turns the wheels.', expect: 'The wheels turn backwards, and only after the change was asked for at a standstill. The driver sees which direction is selected.', unknown: ['parts: a switch with positions that selects the direction, or a mode for reverse'] }];
  }
  return selectors.map(({ part, setting, word }): StepDraft => ({
    id: `drive.direction.${part}.${word}`, phase: 'drive', title: `Direction ${word}`, about: [part, mode], hazard: 'moving', isHoldPoint: true, state: { ...gentle, set: { ...gentle.set, [part]: { [setting]: word } } },
    action: `Standing still, foot on the brake, ${part} to ${word}. The least pedal that turns the wheels. Then try the change while the wheels turn.`,
    expect: 'The wheels turn the other way. While they turn, the change is refused or waits for a standstill.',
  }));
}

export function shutDownSteps(plan: Plan): StepDraft[] {
  const { car, ask, start, packVoltage, openRuns, disconnects } = plan;
  const mode = readyMode(plan);
  const [link] = linksOf(car);
  if (!link || start === undefined || mode === undefined || packVoltage <= 0) return [];
  const off: State = { mode: start };
  const net = netOf(car);
  const same = linksOf(car).filter(({ positive }) => net(positive) === net(link.positive)).map(({ part }) => part.name);
  const isLive = liveLinks(plan).find((one) => one.mode === mode)?.links.length;
  if (isLive === undefined || isLive === 0) return [];
  const isActive = same.some((name) => car.parts.get(name)!.roles.dcLink!.activeDischarge !== undefined);
  const hasBleeder = same.some((name) => car.parts.get(name)!.roles.dcLink!.bleeder !== undefined);
  const limit = isActive ? ACTIVE_TIME : PASSIVE_TIME;
  const isClassB = Math.abs(voltageBetween(ask, { mode }, link.positive, link.negative)) > CLASS_A_HIGHEST;
  const contacts = plan.closedIn(mode);
  const steps: StepDraft[] = [{
    id: 'shut-down.contacts', phase: 'shut_down', title: 'Key off: contactors open', about: contacts, hazard: 'class_b', isHoldPoint: true, state: off,
    action: `From mode ${mode}, key off. One clack for each of ${contacts.join(', ')}. After the discharge, read ${link.positive} against ${link.negative}.`,
    measure: { is: 'voltage', a: link.positive, b: link.negative }, instrument: voltmeter(packVoltage), expect: 'Near 0 V in the end. The pack’s voltage that stays: a contact is welded.',
    limit: { sense: 'at_most', value: CLASS_A_HIGHEST, source: 'un-r100' },
  }];
  if (isClassB) {
    steps.push({
      id: 'shut-down.discharge', phase: 'shut_down', title: `Below ${EMPTY} V`, about: same, hazard: 'class_b', isHoldPoint: true, state: { mode },
      action: `From mode ${mode}, meter on ${link.positive} and ${link.negative}. Key off; time until it is below ${EMPTY} V.`,
      measure: { is: 'time', of: 'empty', links: same, through: undefined, voltageAt: [link.positive, link.negative] }, instrument: stopwatch(packVoltage),
      expect: isActive || hasBleeder ? 'Much longer: the discharge does not work, or a contact is welded.' : 'Nothing in the file empties these capacitors: they stay at the pack’s voltage for hours. Do not touch anything; fit a bleed resistor.',
      limit: { sense: 'at_most', value: limit, source: isActive ? 'iec-60204-1' : 'common-practice' },
      cautions: ['Seconds are the maker’s word until you have read them. Write the waiting time on the cover.'],
      unknown: isActive || hasBleeder ? [] : same.map((name) => `parts.${name}.bleeder`),
    });
  }
  steps.push({ id: 'shut-down.split', phase: 'shut_down', title: 'Split again before anybody reaches in', about: [...disconnects.map(({ name }) => name), ...openRuns], hazard: 'class_b', isHoldPoint: false, action: `${disconnects.length > 0 ? `${disconnects.map(({ name }) => name).join(' and ')} out` : `${openRuns.join(' and ')} apart`}, wait ${printValue(limit, 'time')}, meter tried on a known source, read 0 V between the poles and from each to the chassis, meter tried again.`, expect: '0 V three times, and the meter alive before and after.' });
  return steps;
}

