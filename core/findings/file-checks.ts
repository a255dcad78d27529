/**
 * Problems of the file as checks, so that they stand in the one list with everything else.
 */
import type { Problem } from '../build/problem.ts';
import { EMPTY } from '../build/read-build.ts';
import type { Check } from './finding.ts';

const unreadable: ReadonlySet<string> = new Set(['bad_yaml', 'too_large', 'too_deep', 'too_many_aliases', 'wrong_version']);

/** Whether nothing of the file could be used for lack of readable text: the caller's exit code 2. */
export function isUnreadable(problems: readonly Problem[], parts: number): boolean {
  return parts === 0 && problems.some((problem) => isAboutReading(problem));
}

/** Text that is no build file, as against one wrong value in it. */
function isAboutReading({ code, path, level }: Problem): boolean {
  return level === 'stop' && (unreadable.has(code) || (path === '' && code === 'bad_value'));
}

/** One check a problem; none when the file has no problem. */
export function fileChecks(problems: readonly Problem[]): Check[] {
  return problems.map((problem, index) => {
    const about = [problem.path.split('.').slice(0, 2).at(-1) ?? problem.path].filter((name) => name !== '');
    const common = { about, path: problem.path, place: problem.place, variant: `${problem.place.line}:${problem.place.column}:${index}`, details: { message: problem.message }, sense: 'is_true' as const };
    // somebody who begins has made no mistake
    if (problem.path === '' && problem.found === EMPTY) return { ...common, code: 'file.value-given', details: { message: 'Nothing is in the file yet.' }, needs: ['name', 'vehicle', 'parts'] };
    if (problem.code === 'missing_value') return { ...common, code: 'file.value-given', needs: [problem.path] };
    return { ...common, code: isAboutReading(problem) || unreadable.has(problem.code) ? 'file.readable' : 'file.value-usable', value: 0, limit: 1, ...(problem.level === 'note' ? { levelWhenBroken: 'watch' as const } : {}) };
  });
}
