/** Precharge, watched: the main contactor kept open by a named wire taken off, and put back. */
import type { State } from '../car/state.ts';
import { printValue } from '../quantity/print-value.ts';
import { coilContacts } from '../topics/modes/mode-graph.ts';
import { stopwatch, voltmeter } from './instruments.ts';
import { hasLimitedSource, linksOf, netOf } from './plan.ts';
import type { Plan } from './plan.ts';
import { joinedStep, splitStep } from './reach-in.ts';
import { FULL } from './read-measure.ts';
import type { StepDraft } from './step.ts';

export function prechargeSteps(plan: Plan): StepDraft[] {
  const { car, ask, packVoltage } = plan;
  const share = `${Math.round(FULL * 100)} %`;
  const held = new Map<string, CoilWire>();
  const steps = [...car.modes.keys()].flatMap((mode): StepDraft[] => {
    const by = plan.closedIn(mode).map((name) => car.parts.get(name)!).find(({ roles }) => roles.prechargeResistor) ?? (hasLimitedSource(car, ask, mode) ? [...car.parts.values()].find(({ roles }) => roles.prechargeConverter) : undefined);
    const [link] = linksOf(car);
    if (!by || !link) return [];
    const wires = wiresOff(plan, mode);
    for (const wire of wires) held.set(wire.run, wire);
    const state: State = { mode, ...(wires.length > 0 ? { without: wires.map(({ run }) => run) } : {}) };
    const same = linksOf(car).filter(({ positive }) => netOf(car)(positive) === netOf(car)(link.positive)).map(({ part }) => part.name);
    const common = { phase: 'precharge', about: [mode, by.name, link.part.name, ...wires.map(({ run }) => run)], hazard: 'class_b', state } as const;
    const resistor = by.roles.prechargeResistor;
    const first: StepDraft = {
      ...common, id: `precharge.${mode}.link`, title: `${by.name} fills the capacitors, mode ${mode}`, isHoldPoint: true,
      action: `${wires.length > 0 ? `${wires.map(({ run, contact }) => `${run} off, so that ${contact} cannot close`).join('; ')}. ` : ''}Meter on ${link.positive} and ${link.negative} before anything is switched. Mode ${mode}; watch it rise, switch off if it does not rise at once or stops below ${share} of the pack.`,
      measure: { is: 'voltage', a: link.positive, b: link.negative }, instrument: voltmeter(packVoltage), noEffect: 0,
      expect: 'It rises fast and comes to rest at the pack’s voltage.', instead: 'At rest lower: something takes current while it fills, and the contactor must not close.',
      cautions: resistor ? [`Onto a short the resistor takes ${printValue(packVoltage ** 2 / resistor.resistance, 'power')}: no longer than the mode says, and let it cool before the next try.`] : [],
    };
    if (!resistor) return [first];
    return [first, {
      ...common, id: `precharge.${mode}.time`, title: `How long it takes, mode ${mode}`, isHoldPoint: false,
      action: `Once more, from empty: time until the meter passes ${share} of the pack’s voltage.`, measure: { is: 'time', of: 'fill', links: same, through: by.name, voltageAt: [link.positive, link.negative] }, instrument: { ...stopwatch(packVoltage), fixed: 0.1 },
      expect: 'Under half a second a film of the meter tells more than a thumb.', instead: 'At once: the resistor is bridged or the contactor welded. Longer: more capacitance, a wrong resistor, or something that takes current.',
    }];
  });
  const [first] = steps;
  if (held.size === 0 || !first) return steps;
  const wires = [...held.values()];
  const names = wires.map(({ run }) => run).join(' and ');
  const live: State = { mode: first.about[0]! };
  const joined = (id: string, title: string, without: readonly string[]): StepDraft[] => joinedStep(plan, { id, phase: 'precharge', title }).map((step): StepDraft => ({ ...step, state: { ...step.state, ...(without.length > 0 ? { without } : {}) } }));
  return [
    splitStep(plan, { id: 'precharge.wires-off', phase: 'precharge', title: `${names} off: the main ${wires.length > 1 ? 'contactors stay' : 'contactor stays'} open`, about: wires.map(({ run }) => run), then: `take off ${wires.map(({ run, at, contact }) => `${run} at ${at}, which keeps ${contact} open`).join('; ')}. Its end insulated.` }, live),
    ...joined('precharge.joined', `Joined again, ${names} still off`, wires.map(({ run }) => run)),
    ...steps,
    // without it the steps that follow would wait for a contactor that cannot close
    splitStep(plan, { id: 'precharge.restored', phase: 'precharge', title: `${names} on again`, about: wires.map(({ run }) => run), then: `${wires.map(({ run, at, coil }) => `${run} on at ${at} again; ohms along it to ${coil}: as good as 0`).join('; ')}.` }, live),
    ...joined('precharge.whole', 'Joined again, every wire on', []),
  ];
}

interface CoilWire { readonly run: string; /** its end away from the contactor */ readonly at: string; readonly contact: string; /** its end at the contactor */ readonly coil: string }

/** Contacts that the modes behind a precharge close besides, each with the wire that keeps it open and as few others as possible. */
function wiresOff({ car, ask, closedIn }: Plan, mode: string): readonly CoilWire[] {
  const next = [...car.build.modes.values()].filter(({ from }) => from.includes(mode)).map(({ name }) => name).find((name) => closedIn(name).some((contact) => !closedIn(mode).includes(contact)));
  if (next === undefined) return [];
  return closedIn(next).filter((contact) => !closedIn(mode).includes(contact) && !car.parts.get(contact)!.roles.prechargeResistor).flatMap((contact): CoilWire[] => {
    const { names, roles } = car.parts.get(contact)!;
    const coil = roles.switching!.find((one) => one.coil)?.coil;
    if (!coil) return [];
    const ends = [names.of(coil.positive), names.of(coil.negative)];
    const ways = [...car.runs.values()].filter(({ from, to }) => ends.includes(from) || ends.includes(to)).flatMap(({ name, from, to }) => {
      const [end, at] = ends.includes(from) ? [from, to] : [to, from];
      // a change of a state that is solved already, where a state of its own would be compiled for each wire
      const solved = ask.changed({ mode: next }, [{ kind: 'open', element: name }]);
      const closed = solved?.outcome === 'solved' ? coilContacts(car).flatMap(({ part, element }) => (solved.stateOf(element) === 'closed' ? [part] : [])) : undefined;
      return closed === undefined || closed.includes(contact) ? [] : [{ wire: { run: name, at, contact, coil: end }, others: closedIn(next).filter((one) => !closed.includes(one)).length }];
    });
    const best = ways.reduce<(typeof ways)[number] | undefined>((least, one) => (least === undefined || one.others < least.others ? one : least), undefined);
    return best ? [best.wire] : [];
  });
}
