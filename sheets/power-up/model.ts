/**
 * The first power-up as a checklist: every step with its state, points, meter, predicted reading and what a wrong one means.
 * Worked out only when the sheet is asked for: a solve for every step, and draws of the whole car for the bands.
 */
import type { Analysis } from '../../core/analyse.ts';
import type { Network } from '../../core/car/ask.ts';
import type { Car } from '../../core/car/car.ts';
import type { PreparedCar } from '../../core/car/realise.ts';
import { remembered } from '../../core/car/remembered.ts';
import type { State } from '../../core/car/state.ts';
import { causeFinder } from '../../core/power-up/causes.ts';
import type { Cause } from '../../core/power-up/causes.ts';
import { openStops } from '../../core/findings/open-stops.ts';
import { heldSteps, SETTLE_STEP } from '../../core/power-up/held-steps.ts';
import { disconnectWords } from '../../core/power-up/stands.ts';
import { powerUpOnce } from '../../core/power-up/steps.ts';
import { phases } from '../../core/power-up/step.ts';
import type { PowerUpStep } from '../../core/power-up/step.ts';
import type { Choices, SheetModel } from '../sheet.ts';
import { numbersOf } from '../shown.ts';
import type { Numbers } from '../shown.ts';
import { fewNames } from '../table/few-names.ts';
import type { Cell, Column, EntryRow, Row, Table } from '../table/table.ts';
import { boxCell } from './box-cell.ts';
import { bandWords, causeWords, hasReading, limitWords, pointsWords, settingQuantities, stateWords } from './step-words.ts';
import type { SettingQuantity } from './step-words.ts';

export interface PowerUpModel {
  readonly table: Table;
  /** of the rows that are entries: boxes that they get, by the label of the row */
  readonly boxes: Readonly<Record<string, number>>;
  readonly steps: number; readonly holds: number;
  /** findings at `stop` that are open */
  readonly stops: number;
  /** instead of a table */
  readonly none: string | undefined;
}

/** Kept with the car: other units or another state of the sheets ask for nothing new. */
const procedureOf = remembered((car: Car, ask: Network, prepared: PreparedCar): { readonly steps: readonly PowerUpStep[]; readonly causes: ReadonlyMap<string, readonly Cause[]> } => {
  const { steps } = powerUpOnce(car, ask, prepared);
  const finder = causeFinder(car, ask);
  // elsewhere a wrong reading is only written down
  return { steps, causes: new Map(steps.flatMap((step) => (step.isHoldPoint ? [[step.id, finder.causesOf(step)] as const] : []))) };
});

const columns: readonly Column[] = [
  { head: 'Step', width: 15 }, { head: 'What to do', width: 92 }, { head: 'State', width: 38 }, { head: 'Read', width: 50 }, { head: 'Should read', width: 46 },
  { head: 'Right; if instead; what else a reading means', width: 70 }, { head: 'Who stands where', width: 46 }, { head: 'Written down', width: 34 },
];

export const powerUpModel: SheetModel<PowerUpModel> = {
  name: 'power-up',
  model: ({ build, car, ask, prepared, findings }: Analysis, { units }: Choices): PowerUpModel => {
    const numbers = numbersOf(build, units);
    const quantityOf = settingQuantities(car);
    const { steps: all, causes } = procedureOf(car, ask, prepared);
    // the list of findings may change while the car stays: a mark, another chance
    const steps = heldSteps(car, all, findings);
    const rows: Row[] = [];
    const boxes: Record<string, number> = {};
    let phase: PowerUpStep['phase'] | undefined;
    let people = '';
    steps.forEach((step, index) => {
      if (step.phase !== phase) { rows.push({ heading: phases[step.phase] }); people = ''; }
      phase = step.phase;
      const row = rowOf(step, index + 1, step.heldBy ? undefined : causes.get(step.id), step.people === people, car, numbers, quantityOf);
      people = step.people;
      boxes[row.label!] = hasReading(step) ? 2 : 1;
      rows.push(row);
    });
    return {
      table: { columns, rows }, boxes, stops: openStops(findings).length, steps: steps.length, holds: steps.filter(({ isHoldPoint }) => isHoldPoint).length,
      none: steps.length === 0 ? 'There are no parts in the file yet, so there is nothing to power up.' : undefined,
    };
  },
};

function rowOf(step: PowerUpStep, number: number, causes: readonly Cause[] | undefined, isSamePeople: boolean, car: Car, numbers: Numbers, quantityOf: SettingQuantity): EntryRow {
  const { id, title, action, about, measure, instrument, state, predicted, limit, quantity = 'resistance', expect, instead = '', heldBy, cautions, unknown, notPredicted, willFail, isHoldPoint, people, hazard } = step;
  const [first] = about;
  const path = first === undefined ? undefined : car.parts.has(first) ? `parts.${first}` : car.runs.has(first) ? `runs.${first}` : undefined;
  const isHeld = heldBy !== undefined && id !== SETTLE_STEP;
  const hazardWords: Readonly<Record<typeof hazard, string | undefined>> = { none: undefined, class_a: undefined, class_b: 'class B', moving: 'moves' };
  const marked = hazardWords[hazard];
  const muted = (text: string): Cell => ({ text, tone: 'muted' });
  return {
    ...(path === undefined ? {} : { path }), label: `step ${number}: ${title}`,
    cells: [
      [{ text: String(number), face: 'strong' }, ...(isHeld ? [{ text: 'HELD', face: 'strong', tone: 'red' } as const] : isHoldPoint ? [{ text: 'HOLD', face: 'strong', tone: 'red' } as const] : []), ...(marked === undefined ? [] : [{ text: marked, tone: 'highVoltage' } as const])],
      [{ text: title, face: 'strong' }, action, ...cautions.map((text): Cell => ({ text: heldBy ? text : `Caution: ${text}`, face: 'strong', ...(heldBy ? { tone: 'red' } : {}) }))],
      [...stateWords(state && withoutDisconnects(car, state), numbers, quantityOf), ...(state && disconnectsMatter(step) ? [disconnectWords(car, state)] : [])].filter((text) => text !== '').map((text, index): Cell => (index === 0 ? text : muted(text))),
      [...(measure ? [pointsWords(measure)] : []), ...(instrument ? [muted(`${instrument.name}${instrument.category === undefined ? '' : `, ${instrument.category}`}`)] : measure || isHeld ? [] : [muted('no meter')])],
      [
        ...(predicted ? [numbers.result(`power-up.${id}`, Math.abs(predicted.nominal) < 1e-5 ? 0 : predicted.nominal, quantity), muted(bandWords(predicted, quantity, numbers))] : measure ? [muted(`no prediction: ${notPredicted ?? ''}`)] : []),
        ...(limit ? [limitWords(limit, quantity, numbers)] : []),
        ...(willFail ? [{ text: 'The file’s own values pass this limit: put that right first.', face: 'strong', tone: 'red' } as const] : []),
        ...(unknown.length > 0 ? [muted(`not known: ${fewNames(unknown, 3)}`)] : []),
      ],
      [...(expect === '' ? [] : [`Right: ${expect}`]), ...(instead === '' ? [] : [{ text: `If instead: ${instead}`, face: 'strong' } as const]), ...(causes === undefined ? [] : causeWords(causes, step.quantity, numbers).map(muted))],
      isSamePeople ? muted('as before') : people,
      boxCell(hasReading(step) ? 2 : 1),
    ],
  };
}

/** Where they are is said in a line of its own. */
const withoutDisconnects = (car: Car, { set = {}, ...rest }: State): State => ({ ...rest, set: Object.fromEntries(Object.entries(set).filter(([name]) => !car.parts.get(name)?.roles.disconnect)) });

/** While nothing of the high-voltage side is joined a disconnect parts nothing. */
const disconnectsMatter = ({ phase }: PowerUpStep): boolean => phase !== 'prepare' && phase !== 'insulation';
