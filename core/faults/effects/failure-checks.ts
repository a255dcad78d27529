/**
 * Findings of the table: what a single failure must not do. They belong to the table and not to a topic: it takes seconds, an edit must not.
 */
import type { Car } from '../../car/car.ts';
import type { Check } from '../../findings/finding.ts';
import { UNFUSED } from '../../topics/low-voltage/wires.ts';
import { coilContacts, startModes } from '../../topics/modes/mode-graph.ts';
import type { SingleFailure } from './effect.ts';
import { failuresLookedAt } from './failures-looked-at.ts';
import type { FailureTable } from './single-failures.ts';
import { names, noticeWords, secondWords } from './words.ts';
import { CLASS_A_HIGHEST } from '../../physics/voltage-class.ts';

/** @returns checks for `judge`; none about what the car does not have */
export function failureChecks(car: Car, table: FailureTable): readonly Check[] {
  return [...weldChecks(car, table), ...loopChecks(table), ...keyOffChecks(car, table), ...pluggedChecks(table), ...chafedChecks(car, table)];
}

/** The first in words, and how many more. */
const saidOf = (failures: readonly SingleFailure[]): string => (failures.length === 0 ? '' : `${failures[0]!.words}${failures.length > 1 ? `, or one of ${failures.length - 1} more in the table` : ''}`);

function weldChecks(car: Car, { failures }: FailureTable): readonly Check[] {
  const changes = new Map(failuresLookedAt(car).map((one) => [one.id, one.changes]));
  return coilContacts(car).flatMap(({ part, element }): Check[] => {
    const weld = failures.find(({ id, about }) => about[0] === part && changes.get(id)!.some((change) => change.is === 'stuck_closed' && change.element === element));
    const isAlone = weld?.severity === 'danger';
    if (!weld || (!isAlone && !weld.second && weld.modes.every(({ effects }) => effects.every(({ sort }) => sort !== 'contact_closes')))) return [];
    const notices = weld.modes.flatMap((one) => one.notices);
    const seen = [...new Set(weld.modes.flatMap(({ seenAt }) => seenAt))];
    return [{
      code: 'high-voltage.weld-noticed', about: [part], sense: 'is_true', limit: 1, value: notices.length > 0 ? 1 : 0, levelWhenBroken: weld.second || isAlone ? 'fix' : 'watch',
      details: { by: [...new Set(notices.map(noticeWords))].join('; '), seen: seen.length > 0 ? `, though it shows at ${names(seen)}: no condition fails there` : '', then: isAlone ? 'With it alone high voltage stands where there should be none.' : `One more failure (${secondWords(weld.second) || 'any other contact in its way'}) and the high voltage stays on.` },
    }];
  });
}

function loopChecks({ failures, loop }: FailureTable): readonly Check[] {
  if (loop.watched.length + loop.unwatched.length === 0) return [];
  const hiding = failures.flatMap((failure) => failure.modes.flatMap(({ effects }) => effects).filter(({ sort }) => sort === 'loop_bypassed').map(({ about }) => ({ failure, about })));
  const unwatched = loop.unwatched.length === 0 ? [] : [{ code: 'high-voltage.loop-bypass-noticed', about: loop.unwatched, variant: 'unwatched', sense: 'is_true' as const, needs: ['modes'], details: { unwatched: 'no wire that the file draws shows that it opens' } }];
  if (loop.watched.length === 0) return unwatched;
  const covers = [...new Set(hiding.flatMap(({ about }) => about))];
  // a contact that itself sticks hides only itself
  const wide = hiding.filter(({ failure, about }) => about.length > 1 || failure.about[0] !== about[0]);
  return [...unwatched, {
    code: 'high-voltage.loop-bypass-noticed', about: covers.length > 0 ? covers : loop.watched, sense: 'is_true', limit: 1, value: hiding.length === 0 ? 1 : 0, levelWhenBroken: wide.length > 0 ? 'fix' : 'watch',
    details: { contacts: names(loop.watched), covers: names(covers.length > 0 ? covers : loop.watched), failures: saidOf((wide.length > 0 ? wide : hiding).map(({ failure }) => failure)) },
  }];
}

function keyOffChecks(car: Car, { failures, notSolved }: FailureTable): readonly Check[] {
  if (coilContacts(car).length === 0) return [];
  return startModes(car).filter((mode) => !notSolved.includes(mode)).map((mode): Check => {
    const live = failures.flatMap((failure) => failure.modes.filter((one) => one.mode === mode && one.handsAs === undefined).flatMap(({ effects }) => effects).filter(({ sort }) => sort === 'high_voltage_on').map(({ amount }) => ({ failure, amount: amount ?? 0 })));
    return { code: 'high-voltage.dead-after-key-off', about: [mode], sense: 'at_most', quantity: 'voltage', value: Math.max(0, ...live.map(({ amount }) => amount)), limit: CLASS_A_HIGHEST, details: { failures: saidOf(live.map(({ failure }) => failure)) } };
  });
}

function pluggedChecks({ failures, plugged }: FailureTable): readonly Check[] {
  return [...new Set(plugged.map(({ inlet }) => inlet))].flatMap((inlet): Check[] => {
    const ways = plugged.filter((one) => one.inlet === inlet);
    // with nothing wrong it drives already: modes.no-drive-while-plugged says so
    if (ways.every(({ drivesAnyway }) => drivesAnyway)) return [];
    const driving = failures.flatMap((failure) => failure.modes.filter(({ effects }) => effects.some(({ sort, about }) => sort === 'drives_plugged' && about.includes(inlet))).map(({ mode }) => ({ failure, mode })));
    const untold = [...new Set(ways.flatMap((one) => one.untold))];
    const common = { code: 'modes.plugged-after-failure', about: [inlet], sense: 'is_true' as const };
    if (driving.length > 0) return [{ ...common, variant: driving[0]!.mode, value: 0, limit: 1, details: { failures: saidOf([...new Set(driving.map(({ failure }) => failure))]) } }];
    if (untold.length > 0) return [{ ...common, needs: [`modes.${ways[0]!.mode}.needs`], details: { untold: `the file says it as ${untold.map((text) => `“${text}”`).join(', ')}, which names no wire` } }];
    return [{ ...common, variant: ways[0]!.mode, value: 1, limit: 1, details: { failures: '' } }];
  });
}

function chafedChecks(car: Car, { failures }: FailureTable): readonly Check[] {
  return failures.flatMap((failure): Check[] => {
    const run = failure.sort === 'run_to_chassis' ? car.runs.get(failure.about[0]!) : undefined;
    if (!run || run.carries === 'high_voltage') return [];
    const hot = failure.modes.flatMap(({ mode, effects }) => effects.filter(({ sort }) => sort === 'overheats').map((effect) => ({ mode, ...effect })));
    const opens = [...new Set(failure.modes.flatMap(({ effects }) => effects.filter(({ sort }) => sort === 'fuse_opens').flatMap(({ about }) => about)))];
    // a wire that carries nothing worth a fuse says nothing here
    if (hot.length === 0 && opens.length === 0) return [];
    const isShort = run.length !== undefined && run.length <= UNFUSED;
    return [{
      code: 'low-voltage.chafed-wire-fused', about: [run.name], sense: 'is_true', limit: 1, value: hot.length === 0 ? 1 : 0, levelWhenBroken: isShort ? 'watch' : 'fix',
      details: { by: `${names(opens)} opens`, runs: names([...new Set(hot.flatMap(({ about }) => about))]), modes: names([...new Set(hot.map(({ mode }) => mode))]), amps: { value: Math.max(0, ...hot.map(({ amount }) => amount ?? 0)), quantity: 'current' }, unfused: { value: UNFUSED, quantity: 'length' } },
    }];
  });
}
