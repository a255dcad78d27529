/** How to begin on this build: what may be said of each mode, and what can be looked at. No hypothesis is solved for it. */
import type { Network } from '../../core/car/ask.ts';
import type { Car } from '../../core/car/car.ts';
import { observationWords } from '../../core/faults/fault-words.ts';
import type { Observation } from '../../core/faults/observation.ts';
import { predictor } from '../../core/faults/predict.ts';
import { modeOf, whyNot } from '../../core/faults/symptom-modes.ts';
import { observationsOf, symptoms } from '../../core/faults/symptoms.ts';
import type { Symptom } from '../../core/faults/symptoms.ts';
import { fewNames } from '../table/few-names.ts';
import type { Section } from '../table/flow.tsx';
import type { Row } from '../table/table.ts';
import type { FaultFindingModel } from './model.ts';

export function beginning(car: Car, ask: Network, caution: string): FaultFindingModel {
  const { predictionsIn } = predictor(car, ask);
  const modes = [...car.modes.keys()];
  const first = predictionsIn({ mode: modes[0], without: [] });
  const rows = (Object.entries(symptoms) as [Symptom, string][]).map(([name, meaning]): Row => {
    const shown = (modes.length > 0 ? modes : [undefined]).filter((mode) => whyNot(car, ask, mode, name) === undefined);
    const best = modeOf(car, ask, name).mode;
    const read = observationsOf(car, name, predictionsIn({ mode: best, without: [] }));
    if (shown.length === 0 || !read.observations) return { cells: [meaning, { text: name, face: 'mono', tone: 'muted' }, undefined, { text: whyNot(car, ask, best ?? modes[0], name) ?? '', tone: 'muted' }] };
    const said = shown.length === modes.length && modes.length > 1 ? 'every mode' : [best, ...shown.filter((mode) => mode !== best)].map((mode) => mode ?? '(none)').join(', ');
    return { cells: [{ text: meaning, face: 'strong' }, { text: name, face: 'mono' }, said, meansWords(read.observations)] };
  });
  const { watched: { things }, placeOf: points } = first;
  const of = (what: string): string => { const names = things.filter((thing) => thing.what === what).map(({ of: name }) => name); return names.length === 0 ? 'none in this file' : fewNames(names, 24); };
  const sections: readonly Section[] = [
    {
      title: 'What happens instead', note: 'Choose the mode that was asked for when the car did not do it, then what happened. Several may be so at once. What is so with nothing wrong is no symptom of a mode.',
      table: { columns: [{ head: 'What happens', width: 92 }, { head: 'Written as', width: 62 }, { head: 'Modes in which it is a fault', width: 96 }, { head: 'What it says of this car', width: 132 }], rows },
    },
    {
      title: 'What can be looked at', note: 'Each answer is a line of readings.csv: at the workbench (More, Why does it do nothing), or with halfshaft fault.',
      table: {
        columns: [{ head: 'Look', width: 92 }, { head: 'Written as', width: 110 }, { head: 'On this car', width: 180 }],
        rows: [
          { cells: ['Volts between two points, the mode asked for', { text: 'F1.a-chassis=12.4 V', face: 'mono' }, `${points.size} points; the tool asks at 12 V first`] },
          { cells: ['The same with the service disconnect out', { text: 'F1.a-chassis=12.4 V@disconnect_out', face: 'mono' }, 'where each string has one; its contact opens the interlock loop'] },
          { cells: ['The same with a bolted joint of the pack off', { text: 'F1.a-chassis=12.4 V@pack_open', face: 'mono' }, 'live work, a last resort: the 12 V side only, the ends of the joint stay covered'] },
          { cells: ['Ohms, everything off, disconnect out, the 12 V battery taken off', { text: 'F1.a-F1.b=0.3 Ω', face: 'mono' }, 'first volts on the same two points: they must read 0 V'] },
          { cells: ['Amperes through a wire, with a clamp', { text: 'I(L05)=3.2 A', face: 'mono' }, 'whichever way it flows; wires that a clamp fits around'] },
          { cells: ['A contactor or relay that clicks and stays in', { text: 'K1.closes=no', face: 'mono' }, of('closes')] },
          { cells: ['A lamp or buzzer', { text: 'L1.lights=yes', face: 'mono' }, of('lights')] },
          { cells: ['A unit, pump or fan that runs', { text: 'P1.runs=no', face: 'mono' }, of('runs')] },
          { cells: ['A motor, charger or supply that gives current', { text: 'DU.gives=no', face: 'mono' }, of('gives')] },
          { cells: ['How far the car gets', { text: 'reached.ready=no', face: 'mono' }, modes.join(', ') || 'the file has no modes'] },
        ],
      },
    },
  ];
  return {
    heading: 'Fault finding: how to begin',
    words: [
      caution,
      'No fault finding stands in readings.csv. When the car does not do what was asked: say which mode was asked for and what happened; the tool ranks what may be wrong with this build, and names the reading that tells most for its time and danger. 12 V readings come before exposed high voltage. This sheet then prints the path: what was looked at, what was found, what remained, and how to confirm and mend it.',
      ...(modes.length === 0 ? ['The file has no modes: without them only readings at rest can be compared.'] : []),
    ],
    sections,
  };
}

function meansWords(observations: readonly Observation[]): string {
  return observations.map((observation) => observationWords(observation)).join('; ');
}
