/**
 * Whether the car could drive away with the charging plug in after a failure: the way to each drive mode gone with the plug held in.
 *
 * A need that names the plug's own setting names no wire by which the controller knows of it: such a need cannot be deceived here, and the
 * table says so.
 */
import type { Network } from '../../car/ask.ts';
import type { Car } from '../../car/car.ts';
import type { State } from '../../car/state.ts';
import { asksNetwork } from '../../condition/condition.ts';
import type { Condition } from '../../condition/condition.ts';
import { isTrue } from '../../condition/evaluate.ts';
import { driveModes, entryOf, merged } from '../../topics/modes/mode-graph.ts';
import type { Held } from '../../topics/modes/mode-graph.ts';
import { situationIn } from '../../topics/modes/situation.ts';
import { shortest } from '../asked-state.ts';
import type { Hypothesis } from '../hypothesis.ts';
import { sightsIn } from '../predict-state.ts';
import type { Sight, StateSights } from '../predict-state.ts';
import type { Listening } from './listening.ts';
import type { Places } from './places.ts';

interface Step { readonly state: State; readonly needs: readonly Condition[]; /** made when it is asked for */ sights: StateSights | undefined }

export interface PluggedDrive {
  readonly inlet: string; readonly mode: string;
  /** with nothing wrong: nothing refuses */
  readonly drivesAnyway: boolean;
  /** a condition on the plug's own setting refuses: no wire is named */
  readonly untold: readonly string[];
  readonly drivesWith: (hypothesis: Hypothesis) => boolean;
}

export function pluggedDrives(car: Car, ask: Network, places: Places, { holds }: Listening): readonly PluggedDrive[] {
  const inlets = [...car.parts.values()].filter(({ roles, kind, missing }) => missing.length === 0 && roles.mains?.inlet && kind.worked);
  return inlets.flatMap(({ name, kind }) => {
    const held: Held = { [name]: Object.fromEntries(kind.worked!.map((setting) => [setting, true])) };
    return driveModes(car).map((mode): PluggedDrive => {
      const way = shortest(car, mode);
      const steps = way.slice(1).map((to, index): Step => {
        const from = way[index]!;
        // hands as they stand when the plug is out: the needs that this meets for the plug are asked with it in
        const { state } = entryOf(car, ask, from, to);
        return { state: { ...state, set: merged(state.set, held) }, needs: car.build.modes.get(to)?.needs ?? [], sights: undefined };
      });
      const end: Step = { state: { mode, set: merged(undefined, held) }, needs: car.build.modes.get(mode)?.asserts ?? [], sights: undefined };
      const gives = places.watched.things.flatMap(({ what, of }, index) => (what === 'gives' && car.parts.get(of)?.roles.traction ? [index] : []));
      const untold = steps.flatMap(({ state, needs }) => { const situation = situationIn(car, ask, state); return needs.filter((need) => !asksNetwork(need) && isTrue(need.expression, situation) === false).map(({ text }) => text); });
      const meets = (step: Step, hypothesis: Hypothesis, more: (sight: Sight) => boolean = () => true): boolean => {
        step.sights ??= sightsIn(car, step.state, places.watched);
        const sight = step.sights.of(hypothesis);
        return sight !== undefined && more(sight) && step.needs.every((need) => holds(need, step.state, sight, hypothesis.changes) !== false);
      };
      const drivesWith = (hypothesis: Hypothesis): boolean => steps.every((step) => step.needs.length === 0 || meets(step, hypothesis)) && meets(end, hypothesis, ({ does }) => gives.some((index) => does[index] === 1));
      const known = new Map<string, boolean>();
      return {
        inlet: name, mode, untold: [...new Set(untold)],
        drivesAnyway: untold.length === 0 && drivesWith(NOTHING),
        drivesWith: (hypothesis) => {
          if (untold.length > 0) return false;
          if (!known.has(hypothesis.id)) known.set(hypothesis.id, drivesWith(hypothesis));
          return known.get(hypothesis.id)!;
        },
      };
    });
  });
}

const NOTHING: Hypothesis = { id: 'none', sort: 'none', cause: 'none', about: [], path: '', words: '', changes: [], silent: [], weight: 1, disturbed: [], confirm: '', mend: '' };
