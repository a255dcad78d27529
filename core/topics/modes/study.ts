/**
 * Modes: which can be reached, whether what they need can be true, whether what they drive arrives, and the published rules of
 * electric propulsion. All of it at the nominal values: a condition is true or not, so draws of the tolerances are not asked.
 */
import type { Topic } from '../topic.ts';
import { assertChecks } from './asserts.ts';
import { driveRules } from './drive-rules.ts';
import type { DriveRules } from './drive-rules.ts';
import { startModes } from './mode-graph.ts';
import { needChecks } from './needs.ts';

export interface ModesResults { readonly starts: readonly string[]; readonly drive: DriveRules }

export const modes: Topic<ModesResults> = {
  name: 'modes',
  readsBulk: false,
  study: (car, ask) => {
    if (car.isForMargins || car.build.parts.size === 0) return { results: { starts: [], drive: { modes: [], actions: [], offBy: [], stops: [] } }, checks: [] };
    const { results: drive, checks } = driveRules(car, ask, 'first');
    return { results: { starts: startModes(car), drive }, checks: [...needChecks(car, ask), ...assertChecks(car, ask), ...checks] };
  },
};
