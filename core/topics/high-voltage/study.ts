/**
 * High voltage: the battery's circuit from its ends to every part that takes from it or gives to it.
 */
import type { Topic } from '../topic.ts';
import { studyConductors, type ConductorResults } from './conductors.ts';
import { studyContactors, type ContactResult } from './contactors.ts';
import { studyDischarge, type DischargeResult } from './discharge.ts';
import { knownOf, studyFaultCurrents, type FaultSummary } from './fault-currents.ts';
import { studyFuses, type FuseResult } from './fuses.ts';
import { studyIsolation, type IsolationResult } from './isolation.ts';
import { studyMains, type MainsResults } from './mains.ts';
import { checkModes } from './mode-currents.ts';
import type { PackEnds } from './pack-ends.ts';
import { studyPrecharge, type PrechargeResults } from './precharge.ts';
import { checkRatings } from './ratings.ts';
import { studyRequiredParts, type RequiredPartsResults } from './required-parts.ts';
import { studyRunProtection, type RunShort } from './run-protection.ts';

export interface HighVoltageResults {
  readonly packs: readonly PackEnds[];
  readonly faults: readonly FaultSummary[];
  readonly fuses: readonly FuseResult[];
  readonly conductors: ConductorResults;
  readonly shortCircuits: readonly RunShort[];
  readonly contactors: readonly ContactResult[];
  readonly precharge: PrechargeResults;
  readonly discharge: readonly DischargeResult[];
  readonly isolation: readonly IsolationResult[];
  readonly requiredParts: RequiredPartsResults;
  readonly mains: MainsResults;
}

export const highVoltage: Topic<HighVoltageResults> = {
  name: 'high-voltage',
  readsBulk: false,
  study: (car, ask) => {
    const known = knownOf(car, ask);
    const faults = studyFaultCurrents(car, ask, known);
    const fuses = studyFuses(car, ask, known);
    const conductors = studyConductors(car, ask, known);
    const shortCircuits = studyRunProtection(car, ask, known);
    const contactors = studyContactors(car, ask, known);
    const precharge = studyPrecharge(car, ask);
    const discharge = studyDischarge(car, ask);
    const isolation = studyIsolation(car, ask);
    const requiredParts = studyRequiredParts(car, ask);
    const mains = studyMains(car, ask);
    return {
      results: {
        packs: known.packs.packs, faults: faults.results, fuses: fuses.results, conductors: conductors.results, shortCircuits: shortCircuits.results,
        contactors: contactors.results, precharge: precharge.results, discharge: discharge.results, isolation: isolation.results, requiredParts: requiredParts.results, mains: mains.results,
      },
      checks: [
        ...checkModes(known.modes), ...faults.checks, ...fuses.checks, ...conductors.checks, ...shortCircuits.checks, ...contactors.checks, ...checkRatings(car, known),
        ...precharge.checks, ...discharge.checks, ...isolation.checks, ...requiredParts.checks, ...mains.checks,
      ],
    };
  },
};
