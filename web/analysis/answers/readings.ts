/** The guided procedures: their steps with how far they are by the log, a reading judged at once, and better numbers from what was read. */
import { printValue } from '../../../core/quantity/print-value.ts';
import { quantities } from '../../../core/quantity/quantity-table.ts';
import type { QuantityName } from '../../../core/quantity/quantity-table.ts';
import { chooseUnit } from '../../../core/quantity/print-value.ts';
import { unitOf } from '../../../core/quantity/unit-table.ts';
import { remembered } from '../../../core/car/remembered.ts';
import type { Analysis } from '../../../core/analyse.ts';
import { readEntered } from '../../../core/readings/entered.ts';
import { isolationRead } from '../../../core/readings/isolation-readings.ts';
import { judging } from '../../../core/readings/judging.ts';
import type { Judging } from '../../../core/readings/judging.ts';
import { readLog } from '../../../core/readings/log.ts';
import { procedureOf, proposedBy } from '../../../core/readings/procedures.ts';
import { holdBefore } from '../../../core/readings/progress.ts';
import type { ReadStep } from '../../../core/readings/read-step.ts';
import { OBSERVATION } from '../../../core/readings/reading.ts';
import type { Reading } from '../../../core/readings/reading.ts';
import { pointsOfStep, restsOn } from '../../../core/readings/rests-on.ts';
import { stateWordsOf } from '../../../core/readings/state-words.ts';
import { bandText, limitText, judge, quantityOfStep } from '../../../core/readings/verdict.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import type { GuideStep, Questions } from '../protocol.ts';

const judgeOf = remembered(function guideJudge(analysis: Analysis): Judging { return judging(analysis.car, analysis.ask); });

export function answerGuide({ text, log, procedure }: Questions['guide']['asks'], kept: Pick<KeptAnalysis, 'of'>): Questions['guide']['answer'] {
  const analysis = kept.of(text);
  const { readings, problems } = readLog(log);
  const { steps, headings, progress, why } = procedureOf(procedure, analysis, readings);
  return {
    procedure, why,
    steps: steps.map((step, index) => ({
      ...guideStep(step, headings[index]!, restsOn(step, analysis.build)), status: progress.steps[index]!.status, heldBy: holdBefore(steps, progress, index),
      readings: progress.steps[index]!.readings.map(({ id, when, who, quantity, reading, verdict, note }) => ({ id, when, who, isObservation: quantity === OBSERVATION, reading, verdict, note })),
      worked: workedOut(isolationRead(step, steps, readings)),
    })),
    goOn: progress.goOn, passed: progress.passed,
    problems: problems.map(({ line, column, found, expected, level }) => `readings.csv, line ${line}, column ${column}: found ${found}, expected ${expected}${level === 'stop' ? '. The line was left out' : ''}.`),
  };
}

export function answerProposals({ text, log }: Questions['proposals']['asks'], kept: Pick<KeptAnalysis, 'of'>): Questions['proposals']['answer'] {
  return proposedBy(kept.of(text), readLog(log).readings);
}

export function answerJudge({ text, log, procedure, step: id, reading, isObservation, hasMeanings }: Questions['judge']['asks'], kept: Pick<KeptAnalysis, 'of'>): Questions['judge']['answer'] {
  const analysis = kept.of(text);
  const { readings } = readLog(log);
  const { steps } = procedureOf(procedure, analysis, readings);
  const step = steps.find((one) => one.id === id);
  if (!step) return { ok: false, problem: 'The build has changed: this step is not there any more.' };
  const read = readEntered(reading, isObservation ? OBSERVATION : quantityOfStep(step) ?? OBSERVATION);
  if (!read.ok) return { ok: false, problem: read.problem };
  // the other procedure only where something of it was read: it takes time
  const other = procedure === 'assembly' ? 'power-up' : 'assembly';
  const battery = (): { readonly steps: readonly ReadStep[]; readonly readings: readonly Reading[] } => ({ readings, steps: readings.some((one) => one.procedure === other) ? [...steps, ...procedureOf(other, analysis, readings).steps] : steps });
  const verdict = hasMeanings ? judgeOf(analysis).judge(step, read.value, battery) : judge(step, read.value);
  return {
    ok: true, word: verdict.word, says: verdict.says, next: verdict.next,
    meanings: verdict.meanings.map(({ part, says, reads, fits }) => ({ part, says, fits, reads: reads === undefined ? undefined : printValue(Math.abs(reads) < 1e-5 ? 0 : reads, quantityOfStep(step) ?? 'voltage', { digits: 3 }) })),
  };
}

function guideStep(step: ReadStep, heading: string, fingerprint: string): Omit<GuideStep, 'status' | 'heldBy' | 'readings' | 'worked'> {
  const { id, title, action, hazard, isHoldPoint, instrument, expect, instead, predicted, limit, notPredicted, measure, unknown, people, cautions, willFail, state } = step;
  const quantity = quantityOfStep(step);
  return {
    id, phase: heading, title, action, hazard, isHoldPoint, expect, instead: instead ?? '', unknown, people, cautions, willFail,
    points: pointsOfStep(measure), probes: probesOf(measure), quantity, isMeasured: quantity !== undefined,
    instrument: instrument ? `${instrument.name}${instrument.category === undefined ? '' : `, ${instrument.category}`}` : '',
    state: step.stateSays ?? step.stands ?? (state ? stateWordsOf(state) : ''), restsOn: fingerprint,
    shouldRead: predicted && quantity ? printValue(Math.abs(predicted.nominal) < 1e-5 ? 0 : predicted.nominal, quantity) : undefined,
    band: predicted && quantity ? bandText(predicted, quantity) : undefined,
    notPredicted, limit: limit && quantity ? limitText(limit, quantity) : undefined,
    units: quantity ? unitsOf(quantity) : [], unit: quantity ? chooseUnit(predicted?.nominal ?? limit?.value ?? 1, quantity, 'metric').printed : '',
  };
}

const unitsOf = (quantity: QuantityName): readonly string[] => quantities[quantity].metric.map((key) => unitOf(key, quantity).printed);

function probesOf(measure: ReadStep['measure']): GuideStep['probes'] {
  switch (measure?.is) {
    case 'voltage': return [{ lead: 'red', on: measure.a }, { lead: 'black', on: measure.b }];
    case 'resistance': return [{ lead: 'either', on: measure.a }, { lead: 'either', on: measure.b }];
    case 'insulation': return [{ lead: 'tester', on: measure.poles.join(', then ') }, { lead: 'earth', on: measure.b }];
    case 'current': return [{ lead: 'clamp', on: measure.element }];
    case 'time': return [{ lead: 'red', on: measure.voltageAt[0] }, { lead: 'black', on: measure.voltageAt[1] }];
    case 'difference':
    case 'isolation':
    case undefined: return [];
  }
}

function workedOut(found: ReturnType<typeof isolationRead>): GuideStep['worked'] {
  switch (found?.outcome) {
    case 'resistance': return { value: printValue(found.resistance, 'resistance', { digits: 4 }), says: `A single leak would sit at ${Math.round(found.leakAt * 100)} % of the voltage from the negative end.` };
    case 'missing': return { value: undefined, says: `To work it out, readings are missing: ${found.steps.join('; ')}.` };
    case 'inconsistent': return { value: undefined, says: found.why };
    case undefined: return undefined;
  }
}
