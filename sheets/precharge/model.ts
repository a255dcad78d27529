/** Precharge: how the capacitors fill, what the resistor or converter goes through, the rush at closing, and how they empty. */
import type { Analysis } from '../../core/analyse.ts';
import type { Finding } from '../../core/findings/finding.ts';
import type { PrechargeResult } from '../../core/topics/high-voltage/precharge.ts';
import type { HighVoltageResults } from '../../core/topics/high-voltage/study.ts';
import type { Plot } from '../plot/time-plot.tsx';
import type { Choices, SheetModel } from '../sheet.ts';
import { numbersOf } from '../shown.ts';
import type { Section } from '../table/flow.tsx';
import { fewNames } from '../table/few-names.ts';
import type { Row } from '../table/table.ts';
import { factsOf } from './facts.ts';
import { plotsOf } from './plots.ts';
import { checkSection, closingSection, dischargeSection } from './tables.ts';

export interface PrechargeSheet {
  readonly title: string;
  readonly path: string;
  readonly plots: { readonly voltage: Plot; readonly current: Plot } | undefined;
  readonly facts: readonly Row[];
  readonly checks: Section;
}

export interface PrechargeModel {
  readonly precharges: readonly PrechargeSheet[];
  /** why there is none and what is missing; empty when there is one */
  readonly none: readonly string[];
  readonly closing: Section;
  readonly discharge: Section;
}

export const prechargeModel: SheetModel<PrechargeModel> = {
  name: 'precharge',
  model: (analysis: Analysis, { units }: Choices) => {
    const { build, car, results, findings } = analysis;
    const numbers = numbersOf(build, units);
    const high = results['high-voltage'] as HighVoltageResults | undefined;
    const found = high?.precharge.precharges ?? [];
    const closings = high?.precharge.closings ?? [];
    const own = findings.filter(({ code }) => /^high-voltage\.(precharge|inrush|link|discharge)-/.test(code));
    const sheet = (result: PrechargeResult): PrechargeSheet => {
      const of = own.filter(({ about, variant }) => variant === result.mode && about[0] === result.by);
      const after = closings.filter(({ from }) => from === result.mode);
      const closing = own.filter(({ variant }) => after.some(({ to }) => variant === `${result.mode} to ${to}`));
      return {
        title: `${result.by} in mode ${result.mode}`, path: `parts.${result.by}`, plots: plotsOf(result, after.length > 0, numbers, units),
        facts: factsOf(result, car, numbers, of), checks: checkSection(`What must hold: ${result.by} in mode ${result.mode}`, [...of, ...closing], numbers),
      };
    };
    return {
      precharges: found.map(sheet), none: found.length > 0 ? [] : whyNone(analysis, own, high),
      closing: closingSection(closings, own, numbers), discharge: dischargeSection(high?.discharge ?? [], own, high?.packs[0]?.maximumVoltage, numbers),
    };
  },
};

/** What stands between this car and a precharge, nearest first. */
function whyNone({ car }: Analysis, findings: readonly Finding[], high: HighVoltageResults | undefined): readonly string[] {
  const parts = [...car.parts.values()];
  const links = parts.filter(({ roles }) => roles.dcLink !== undefined && roles.dcLink.capacitance > 0).map(({ name }) => name);
  const fillers = parts.filter(({ roles }) => roles.prechargeResistor !== undefined || roles.prechargeConverter !== undefined).map(({ name }) => name);
  const unfinished = parts.filter(({ missing, kind }) => missing.length > 0 && kind.family === 'high_voltage').flatMap(({ missing }) => missing);
  const unknown = findings.filter(({ level, code }) => level === 'unknown' && /precharge|link/.test(code)).flatMap(({ needs }) => needs);
  const missing = [...new Set([...unfinished, ...unknown])];
  return [
    'No capacitor is precharged in any mode of this build.',
    ...(links.length === 0 ? ['No part with a capacitor across the high voltage is in the file yet. A drive unit, an inverter, a charger and most converters have one: give link_capacitance with the part.'] : [`These have a capacitor across the high voltage: ${fewNames(links)}. Empty, it takes the current of a short circuit when a contactor closes onto it.`]),
    ...(fillers.length === 0 ? ['There is no precharge resistor and no precharge converter in the file. Add one across the main contactor.'] : [`${fewNames(fillers)} could precharge, but no mode closes ${fillers.length === 1 ? 'it' : 'one of them'} onto an empty capacitor with the other pole joined to the pack. Write a mode that does, with lasts.`]),
    ...(car.modes.size === 0 ? ['The file describes no modes. Write at least one that precharges and one that is ready after it.'] : []),
    ...((high?.precharge.neverLive.length ?? 0) > 0 ? [`No mode ever puts ${fewNames(high!.precharge.neverLive)} on the pack.`] : []),
    ...(missing.length > 0 ? [`Missing in the file: ${fewNames(missing)}.`] : []),
  ];
}
