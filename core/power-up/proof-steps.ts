/**
 * Proofs that the vehicle refuses: each deliberate action to drive left out, the plug in, the loop open, what no file shows, and the
 * key turned off while the wheels turn. What the file's conditions say is worked out; what it does not say is asked for.
 */
import type { State } from '../car/state.ts';
import { settingsIn } from '../condition/condition.ts';
import { closedContacts, reach, startModes } from '../topics/modes/mode-graph.ts';
import type { Held, Reach } from '../topics/modes/mode-graph.ts';
import { driveRules } from '../topics/modes/drive-rules.ts';
import { settingIn } from '../topics/modes/situation.ts';
import { voltmeter } from './instruments.ts';
import { interlockLoopEnds } from './loop-ends.ts';
import { pedalProofs } from './pedal-steps.ts';
import type { Plan } from './plan.ts';
import { linksOf, voltageBetween } from './plan.ts';
import type { StepDraft } from './step.ts';

export function proofSteps(plan: Plan): StepDraft[] {
  const { car, ask, driveModes } = plan;
  const movers = [...car.parts.values()].filter(({ roles }) => roles.traction).map(({ name }) => name);
  if (movers.length === 0) return [];
  const [drive] = driveModes;
  const rules = driveRules(car, ask, 'all').results;
  return [...actionProofs(plan, rules.actions), ...plugProofs(plan), ...loopProofs(plan), ...pedalProofs(plan, movers), ...keyProofs(plan, rules.offBy, drive)];
}

/** The last mode that is still reached, and what refuses the next. */
function refusal({ reached, refused }: Reach): { readonly stays: string; readonly entry: string; readonly by: readonly string[] } | undefined {
  const last = refused.find(({ from }) => reached.has(from));
  return last && { stays: last.from, entry: last.to, by: last.refusedBy.map(({ text }) => text) };
}

/** The refused mode, and what the bus shows because it was refused. */
function refusedStep(plan: Plan, draft: Pick<StepDraft, 'id' | 'title' | 'about' | 'hazard'> & { readonly how: string }, held: Held): StepDraft | undefined {
  const { car, ask, packVoltage } = plan;
  const found = refusal(reach(car, ask, held));
  if (!found) return undefined;
  const { how, ...rest } = draft;
  const [link] = linksOf(car);
  const state: State = { mode: found.stays, set: held };
  const closed = closedContacts(car, ask, state) ?? [];
  return {
    ...rest, phase: 'proof', isHoldPoint: true, state,
    action: `${how} Try to enter ${found.entry}.${link ? ` Read ${link.positive} against ${link.negative}.` : ''}`,
    ...(link && voltageBetween(ask, state, link.positive, link.negative) < packVoltage ? { measure: { is: 'voltage', a: link.positive, b: link.negative } as const, instrument: voltmeter(packVoltage) } : {}),
    expect: `It stays in ${found.stays}${closed.length > 0 ? `, with ${closed.join(', ')} closed as before` : ', every contactor open'}. What refuses, by the file: ${found.by.map((text) => `“${text}”`).join(' and ')}.`,
  };
}

function actionProofs(plan: Plan, actions: readonly { readonly part: string; readonly setting: string }[]): StepDraft[] {
  const { car } = plan;
  const [start] = startModes(car);
  if (actions.length === 0) return [{ id: 'proof.actions', phase: 'proof', title: 'No drive by one action', about: plan.driveModes, hazard: 'moving', isHoldPoint: true, action: 'From switched off, try to drive with the brake pedal untouched, then with each other action left out.', expect: 'It refuses each time. The file does not say what it waits for.', unknown: plan.driveModes.slice(0, 1).map((mode) => `modes.${mode}.needs`) }];
  return actions.flatMap(({ part, setting }): StepDraft[] => {
    const value = start === undefined ? undefined : settingIn(car, { mode: start }, part, setting);
    const step = refusedStep(plan, { id: `proof.action.${part}.${setting}`, title: `No drive without ${part}`, about: [part], hazard: 'moving', how: `${part} left as in the parked vehicle (${typeof value === 'boolean' ? (value ? `${setting}` : `not ${setting}`) : String(value)}), everything else as for driving.` }, { [part]: { [setting]: value } });
    return step ? [step] : [];
  });
}

function plugProofs(plan: Plan): StepDraft[] {
  const { car } = plan;
  const inlets = [...car.parts.values()].filter(({ roles, kind }) => roles.mains?.inlet && kind.worked);
  return inlets.map(({ name, kind }): StepDraft => {
    const held: Held = { [name]: Object.fromEntries(kind.worked!.map((setting) => [setting, true])) };
    const speaks = [...car.build.modes.values()].some(({ needs }) => needs.some((need) => settingsIn(need).some(({ part }) => part === name)));
    const step = speaks ? refusedStep(plan, { id: `proof.plug.${name}`, title: `No drive with the plug in ${name}`, about: [name], hazard: 'moving', how: `Cable plugged into ${name}, the station switched off. Everything else as for driving.` }, held) : undefined;
    return step ?? { id: `proof.plug.${name}`, phase: 'proof', title: `No drive with the plug in ${name}`, about: [name], hazard: 'moving', isHoldPoint: true, action: `Cable plugged into ${name}, the station switched off. Try to drive.`, expect: 'It refuses. The file names no condition that does.', unknown: plan.driveModes.slice(0, 1).map((mode) => `modes.${mode}.needs`) };
  });
}

/** What opens the loop with the pack joined: one contact stands for all, the others were tried while the pack was open. */
function loopProofs(plan: Plan): StepDraft[] {
  const { car, ask, packVoltage } = plan;
  const loops = interlockLoopEnds(car);
  if (loops.length === 0) {
    return packVoltage <= 60 ? [] : [{ id: 'proof.interlock', phase: 'proof', title: 'Nothing starts with a lid off', about: [], hazard: 'class_b', isHoldPoint: true, action: 'With the pack open: a lid off, a plug out; try each mode.', expect: 'It refuses. The file has no interlock loop that could.', unknown: ['parts: interlock contacts'] }];
  }
  return loops.flatMap(({ parts }): StepDraft[] => {
    const part = parts.map((name) => car.parts.get(name)!).find(({ kind, roles }) => kind.worked !== undefined && !roles.disconnect) ?? parts.map((name) => car.parts.get(name)!).find(({ kind }) => kind.worked !== undefined);
    if (!part) return [];
    const held: Held = { [part.name]: { [part.kind.worked![0]!]: true } };
    const how = `Pack joined, key off, ${part.roles.disconnect ? `${part.name} out` : `the small plug of ${part.name} pulled, its lid on`}.`;
    const step = refusedStep(plan, { id: `proof.interlock.${part.name}`, title: 'No start from an open interlock loop', about: [part.name, ...parts.filter((name) => name !== part.name)], hazard: 'class_b', how }, held);
    if (step) return [step];
    // nothing refuses by condition: do wires?
    const mode = [...car.modes.keys()].find((name) => plan.closedIn(name).length > 0);
    const closed = mode === undefined ? undefined : closedContacts(car, ask, { mode, set: held });
    return [{ id: `proof.interlock.${part.name}`, phase: 'proof', title: 'No start from an open interlock loop', about: parts, hazard: 'class_b', isHoldPoint: true, action: `${how} Try to start.`, expect: closed?.length === 0 ? 'No contactor closes: the wires alone see to it. The file names no condition besides.' : 'It refuses. Neither a condition nor the wiring of the file sees to it.', unknown: closed?.length === 0 ? [] : ['modes: needs with interlock_closed'] }];
  });
}

function keyProofs({ car, ask, packVoltage, start }: Plan, offBy: readonly { readonly part: string; readonly setting: string }[], drive: string | undefined): StepDraft[] {
  if (drive === undefined) return [];
  if (offBy.length === 0) return [{ id: 'proof.off', phase: 'proof', title: 'Off while the wheels turn', about: [drive], hazard: 'moving', isHoldPoint: true, action: 'Wheels turning slowly on the stands: key off.', expect: 'Torque ends at once, contactors open. By the file no switch alone opens them.', unknown: ['parts: a switch in the feed of the contactor coils'] }];
  const [link] = linksOf(car);
  const before = closedContacts(car, ask, { mode: drive }) ?? [];
  return offBy.map(({ part, setting }): StepDraft => {
    const now = settingIn(car, { mode: drive }, part, setting);
    const other = typeof now === 'boolean' ? !now : start === undefined ? now : settingIn(car, { mode: start }, part, setting);
    const state: State = { mode: drive, set: { [part]: { [setting]: other } } };
    const gone = closedContacts(car, ask, state) ?? [];
    return {
      id: `proof.off.${part}`, phase: 'proof', title: `${part} while the wheels turn`, about: [part, ...before], hazard: 'moving', isHoldPoint: true, state, lost: before.filter((name) => !gone.includes(name)),
      action: `Wheels turning slowly, pedal let go. ${part} ${typeof other === 'boolean' ? 'worked' : `to ${String(other)}`}.${link ? ` Read ${link.positive} against ${link.negative} when the wheels stand.` : ''}`,
      ...(link ? { measure: { is: 'voltage', a: link.positive, b: link.negative } as const, instrument: voltmeter(packVoltage) } : {}),
      expect: `${before.join(', ')} fall off; the wheels run out freely, no jerk, no bang from the inverter. The steering still helps, the brake lamps still light.`,
      cautions: ['Turning wheels make voltage by themselves: slowly, so that it stays far below the pack’s. Never at speed.'],
    };
  });
}
