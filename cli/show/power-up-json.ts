/** The power-up procedure as the stable JSON contract of `docs/json.md`. Numbers are SI; `unit` names the SI unit. */
import type { OpenStop } from '../../core/findings/open-stops.ts';
import type { Cause } from '../../core/power-up/causes.ts';
import type { PowerUpStep } from '../../core/power-up/step.ts';
import { quantities } from '../../core/quantity/quantity-table.ts';

export interface ShownStep { readonly step: PowerUpStep; /** from 1, in the whole procedure */ readonly number: number; readonly causes: readonly Cause[] }

export function powerUpJson(name: string, shown: readonly ShownStep[], draws: { readonly count: number; readonly seed: number }, stops: readonly OpenStop[]): object {
  return {
    version: 1,
    build: name,
    sample: { draws: draws.count, seed: draws.seed },
    stops: stops.map(stopJson),
    steps: shown.map(({ step, number, causes }) => ({
      id: step.id, number, phase: step.phase, title: step.title, action: step.action, about: step.about,
      hazard: step.hazard, hold_point: step.isHoldPoint, people: step.people, cautions: step.cautions,
      state: step.state ?? null,
      measure: measureJson(step),
      instrument: step.instrument ? { name: step.instrument.name, category: step.instrument.category ?? null } : null,
      unit: step.quantity === undefined ? null : quantities[step.quantity].si,
      predicted: step.predicted ? { value: step.predicted.nominal, low: step.predicted.low, high: step.predicted.high } : null,
      not_predicted: step.notPredicted ?? null,
      limit: step.limit ? { sense: step.limit.sense, value: step.limit.value, to: step.limit.to ?? null, source: step.limit.source } : null,
      will_fail: step.willFail,
      expect: step.expect, instead: step.instead ?? '', stands: step.stands ?? null, no_effect: step.noEffect ?? null,
      held_by: (step.heldBy ?? []).map(({ number }) => number),
      lost: step.lost,
      unknown: step.unknown,
      causes: causes.map(({ part, failure, meaning, reads }) => ({ part, failure, meaning, reads: reads ?? null })),
    })),
  };
}

/** A finding at `stop`, by the number that steps name it with. */
export const stopJson = ({ number, code, about, statement, whatToDo }: OpenStop): object => ({ number, code, about, statement, what_to_do: whatToDo });

function measureJson({ measure }: PowerUpStep): object | null {
  if (!measure) return null;
  switch (measure.is) {
    case 'voltage':
    case 'resistance': return { is: measure.is, between: [measure.a, measure.b] };
    case 'difference': return { is: measure.is, first: measure.first, second: measure.second };
    case 'insulation': return { is: measure.is, poles: measure.poles, to: measure.b };
    case 'current': return { is: measure.is, through: measure.element, reversed: measure.isReversed };
    case 'isolation': return { is: measure.is, between: [measure.positive, measure.negative], added_resistance: measure.added };
    case 'time': return { is: measure.is, of: measure.of, links: measure.links, between: measure.voltageAt };
  }
}
