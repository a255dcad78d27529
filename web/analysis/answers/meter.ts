/** What a meter between two points would read: at the nominal values, and in some draws. */
import { answerStore, askNetwork } from '../../../core/car/ask-network.ts';
import type { AnswerStore } from '../../../core/car/ask-network.ts';
import { readState } from '../../../core/car/read-state.ts';
import { realise } from '../../../core/car/realise.ts';
import { remembered } from '../../../core/car/remembered.ts';
import { drawTable } from '../../../core/chance/draw-table.ts';
import { nearestName } from '../../../core/build/nearest-name.ts';
import type { Build } from '../../../core/build/build.ts';
import type { Analysis } from '../../../core/analyse.ts';
import type { KeptAnalysis } from '../../../study/kept-analysis.ts';
import type { MeterReading, Questions } from '../protocol.ts';

/** Factorisations are kept from one handful of draws to the next. */
const storeOf = remembered(function meterStore(_: Build): AnswerStore { return answerStore(); });

export function answerMeter({ text, state: asked, a, b, draws, seed }: Questions['meter']['asks'], kept: Pick<KeptAnalysis, 'of'>): MeterReading {
  const { ask, car, build, prepared, results } = kept.of(text);
  const state = readState(asked, car);
  const nothing = { voltage: undefined, drawn: [], isFloating: false, isStalled: false } as const;
  const unknown = [a, b].filter((point) => !ask.points.includes(point)).map((point) => noPoint(point, ask.points));
  if (!state.ok || unknown.length > 0) return { ...nothing, outcome: 'wrong_state', problems: [...unknown, ...(state.ok ? [] : state.problems)] };
  const reading = ask.meter(state.state, a, b);
  if (reading.outcome === 'failed') return { ...nothing, outcome: 'failed', problems: [reading.why] };

  const table = drawTable([...build.quantities.values()], Math.max(1, draws), seed);
  const drawn: number[] = [];
  for (let draw = 0; draw < draws; draw++) {
    const there = askNetwork(realise(prepared, table.valueOf(draw)), storeOf(build)).meter(state.state, a, b);
    if (there.outcome === 'reads') drawn.push(there.voltage);
  }
  return { outcome: 'reads', voltage: reading.voltage, drawn, isFloating: reading.isFloating, isStalled: asked.mode !== undefined && isStalled(results, asked.mode), problems: [] };
}

function noPoint(point: string, points: readonly string[]): string {
  const close = nearestName(point, points);
  return `There is no point ${point}${close === undefined ? '.' : `; did you mean ${close}?`}`;
}

/** Precharge from empty never finishes in this mode. */
function isStalled(results: Analysis['results'], mode: string): boolean {
  const study = results['high-voltage'] as { readonly precharge?: { readonly precharges: readonly { readonly mode: string; readonly timeToFull: number | undefined }[] } } | undefined;
  return study?.precharge?.precharges.some((each) => each.mode === mode && each.timeToFull === undefined) ?? false;
}
