/** The cover: the car, what stands at which level, what is open, the next thing to do, the cautions. */
import type { Analysis } from '../../core/analyse.ts';
import type { Level } from '../../core/findings/finding.ts';
import type { HighVoltageResults } from '../../core/topics/high-voltage/study.ts';
import type { PackResults } from '../../core/topics/pack/study.ts';
import type { VoltageClass } from '../../core/topics/pack/voltage-window.ts';
import { countLevels } from '../levels.ts';
import type { LevelCounts } from '../levels.ts';
import { farMargin, marginDigits } from '../margin-words.ts';
import { sideViewOf } from '../mass/side-view.ts';
import type { SideView } from '../mass/side-view.ts';
import type { Choices, SheetModel } from '../sheet.ts';
import { numbersOf } from '../shown.ts';
import type { Numbers, Shown } from '../shown.ts';
import { cautionsFor } from './cautions.ts';
import type { Caution } from './cautions.ts';
import { keyFigures } from './key-figures.ts';
import type { KeyFigures } from './key-figures.ts';

export interface OpenFinding {
  readonly level: Level;
  readonly about: readonly string[];
  readonly statement: string; readonly whatToDo: string;
  readonly path: string;
  /** line in the file */
  readonly line: number | undefined;
  /** distance to the limit as a share of it */
  readonly margin: Shown | undefined;
}

export interface CoverModel {
  readonly build: string;
  readonly scenario: string | undefined;
  readonly view: SideView;
  readonly wheelbase: Shown | undefined;
  readonly figures: KeyFigures;
  readonly counts: LevelCounts;
  readonly hasParts: boolean;
  /** worst first */
  readonly open: readonly OpenFinding[];
  readonly next: { readonly do: string; readonly path: string | undefined };
  readonly cautions: readonly Caution[];
}

export const coverModel: SheetModel<CoverModel> = {
  name: 'cover',
  model: (analysis: Analysis, { units }: Choices) => {
    const { build, car, findings, next } = analysis;
    const numbers = numbersOf(build, units);
    return {
      build: build.name.trim() === '' ? 'No name yet' : build.name, scenario: build.scenario, view: sideViewOf(car), wheelbase: numbers.field('vehicle.wheelbase'),
      figures: keyFigures(analysis, numbers), counts: countLevels(findings), hasParts: build.parts.size > 0,
      open: findings.filter(({ level }) => level !== 'holds').map((finding) => {
        const { level, about, statement, whatToDo, path, place, margin, code, variant } = finding;
        return { level, about: [...about], statement, whatToDo, path, line: place?.line, margin: margin === undefined ? undefined : marginShown(numbers, `${code} ${about.join(' ')} ${variant ?? ''}`, margin) };
      }),
      next: { do: next.do, path: next.path },
      cautions: cautionsOf(analysis, numbers),
    };
  },
};

function marginShown(numbers: Numbers, key: string, margin: number): Shown {
  const shown = numbers.result(`margin.${key}`, margin, 'ratio', marginDigits);
  return { ...shown, text: farMargin(margin) ?? shown.text };
}

const classes: readonly (VoltageClass | undefined)[] = ['A', 'B', 'above B'];

/** Of several packs the worst counts; one of unknown voltage counts as more than 60 V. */
function cautionsOf({ results, car }: Analysis, { say }: Numbers): readonly Caution[] {
  const packs = (results['pack'] as PackResults | undefined)?.packs ?? [];
  const discharges = (results['high-voltage'] as HighVoltageResults | undefined)?.discharge ?? [];
  const parts = [...car.parts.values()];
  const isKnown = packs.length > 0 && packs.every(({ figures }) => figures !== undefined) && parts.every(({ kind, missing }) => kind.family !== 'high_voltage' || missing.length === 0);
  const worst = packs.reduce<VoltageClass | undefined>((most, { voltageClass }) => (classes.indexOf(voltageClass) > classes.indexOf(most) ? voltageClass : most), undefined);
  const highest = (values: readonly (number | undefined)[]): number | undefined => values.reduce<number | undefined>((most, value) => (value !== undefined && (most === undefined || value > most) ? value : most), undefined);
  const said = (value: number | undefined, quantity: 'voltage' | 'current' | 'time'): string | undefined => (value === undefined ? undefined : say(value, quantity, { rounding: 'up' }));
  const wait = highest(discharges.map(({ passiveTime }) => passiveTime));
  const isEmptied = discharges.every(({ bleederPower, isExempt, passiveTime }) => isExempt || (bleederPower > 0 && passiveTime !== undefined));
  return cautionsFor({
    voltageClass: isKnown || worst !== 'A' ? worst : undefined,
    voltage: said(highest(packs.map(({ figures }) => figures?.maximumVoltage)), 'voltage'), shortCircuit: said(highest(packs.map(({ figures }) => figures?.highestFault.shortCircuit)), 'current'),
    wait: isEmptied ? said(wait, 'time') : undefined, isEmptied, hasMains: parts.some(({ roles }) => roles.mains !== undefined), hasDisconnect: parts.some(({ roles }) => roles.disconnect !== undefined),
  });
}
