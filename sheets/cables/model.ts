/** Cables and fuses: a schedule of every run and every fuse, high voltage first. */
import type { Analysis } from '../../core/analyse.ts';
import type { HighVoltageResults } from '../../core/topics/high-voltage/study.ts';
import type { LowVoltageResults } from '../../core/topics/low-voltage/study.ts';
import type { Choices, SheetModel } from '../sheet.ts';
import { numbersOf } from '../shown.ts';
import type { Section } from '../table/flow.tsx';
import { highVoltageFuses, lowVoltageFuses } from './fuse-rows.ts';
import { modeExtremes } from './mode-extremes.ts';
import { highVoltageRuns, lowVoltageRuns } from './run-rows.ts';
import { standingOf } from './smallest-margin.ts';

export interface CablesModel { readonly sections: readonly Section[] }

export const cablesModel: SheetModel<CablesModel> = {
  name: 'cables',
  model: (analysis: Analysis, { units }: Choices) => {
    const { build, car, results, findings } = analysis;
    const numbers = numbersOf(build, units);
    const known = { car, numbers, standing: standingOf(findings, numbers), extremes: modeExtremes(analysis) };
    const high = results['high-voltage'] as HighVoltageResults | undefined;
    const low = results['low-voltage'] as LowVoltageResults | undefined;
    return { sections: [highVoltageRuns(known, high), highVoltageFuses(known, high), lowVoltageRuns(known, low), lowVoltageFuses(known, low)] };
  },
};
