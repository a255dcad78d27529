/**
 * Pedals that tell electronics how far they are pressed: each track at rest and fully pressed before anything can move, and the
 * proof that tracks which disagree give no torque.
 */
import type { State } from '../car/state.ts';
import type { CarPart } from '../car/car.ts';
import { voltmeter } from './instruments.ts';
import type { Plan } from './plan.ts';
import { voltageBetween } from './plan.ts';
import type { StepDraft } from './step.ts';

/** Highest voltage of a track's supply that is read here [V]. */
const SIGNAL = 16;
/** Below this the track has no supply in a mode [V]. */
const FED = 1;

const pedalsOf = ({ car }: Plan): readonly CarPart[] => [...car.parts.values()].filter(({ roles }) => roles.pedal);

/** Both ends of the travel on every track, in the first mode without high voltage that feeds it. */
export function pedalSteps(plan: Plan): StepDraft[] {
  const { ask, open, lowVoltageModes } = plan;
  return pedalsOf(plan).flatMap((part) => {
    const { tracks, travelSetting } = part.roles.pedal!;
    return tracks.flatMap(({ supply, ground, signal }, index): StepDraft[] => {
      const [plus, minus, out] = [part.names.of(supply), part.names.of(ground), part.names.of(signal)];
      const mode = lowVoltageModes.find((name) => voltageBetween(ask, { ...open, mode: name }, plus, minus) > FED);
      const common = { phase: 'low_voltage', about: [part.name], hazard: 'class_a', instrument: voltmeter(SIGNAL) } as const;
      if (mode === undefined) {
        return [{ ...common, id: `low-voltage.pedal.${part.name}.${index + 1}`, title: `${part.name}, track ${index + 1}`, isHoldPoint: true, action: `Find the mode that feeds ${plus}; read ${out} against ${minus} at rest and fully pressed.`, expect: 'It rises evenly and comes back.', unknown: [`runs: to ${plus}`] }];
      }
      const at = (travel: number): State => ({ ...open, mode, set: { [part.name]: { [travelSetting]: travel } } });
      return [
        { ...common, id: `low-voltage.pedal.${part.name}.${index + 1}.rest`, title: `${part.name} at rest, track ${index + 1}`, isHoldPoint: true, state: at(0), action: `Mode ${mode}, pack open, pedal untouched. Read ${out} against ${minus}.`, measure: { is: 'voltage', a: out, b: minus }, expect: 'Steady, well inside 0 V and the supply.', instead: '0 V or the supply: a broken or a touching wire.' },
        { ...common, id: `low-voltage.pedal.${part.name}.${index + 1}.pressed`, title: `${part.name} fully pressed, track ${index + 1}`, isHoldPoint: true, state: at(1), action: `The same, pressed slowly to its stop. Watch ${out} on the way.`, measure: { is: 'voltage', a: out, b: minus }, expect: 'It rises without a jump and comes back to the reading at rest when let go.', instead: 'A jump: a worn spot, and a foot that the controller does not feel.' },
      ];
    });
  });
}

/** @param movers  what turns the wheels */
export function pedalProofs(plan: Plan, movers: readonly string[]): StepDraft[] {
  const common = { phase: 'proof', hazard: 'moving', isHoldPoint: true } as const;
  const expect = 'No torque each time, and it stays without torque after the wire is back until the key has been off.';
  const instead = 'Torque: off at once. A broken wire would then drive the vehicle.';
  const pedals = pedalsOf(plan);
  if (pedals.length === 0) {
    return [{
      ...common, id: 'proof.pedal-tracks', title: 'Pedal tracks in disagreement', about: movers,
      action: 'Wheels clear, in drive, pedal untouched. Pull one of the two wires that carry the pedal’s signals; press the pedal. Put it back; short it to its own ground; press again. The same with the other.',
      expect, instead, unknown: ['parts: an accelerator pedal with two tracks'],
    }];
  }
  return pedals.map((part): StepDraft => {
    const signals = part.roles.pedal!.tracks.map(({ signal }) => part.names.of(signal));
    const wires = signals.map((point) => [...plan.car.runs.values()].find(({ from, to }) => from === point || to === point)?.name ?? `the wire at ${point}`);
    const isOne = signals.length === 1;
    return {
      ...common, id: `proof.pedal-tracks.${part.name}`, title: isOne ? `${part.name} without its signal` : `${part.name}: tracks in disagreement`, about: [part.name, ...movers],
      action: `Wheels clear, in drive, pedal untouched. Pull ${wires[0]!}; press the pedal. Put it back; lay it to its own ground; press again.${isOne ? '' : ` The same with ${wires[1]!}; then both signals on each other.`}`,
      expect, instead: isOne ? `${instead} One track cannot show that it lies: a worn spot looks like a foot.` : instead,
    };
  });
}
