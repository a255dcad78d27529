/** What both electrical sheets write on parts and runs, from the file and the chosen state. */
import type { Analysis } from '../../core/analyse.ts';
import type { CarPart, CarRun } from '../../core/car/car.ts';
import type { Level } from '../../core/findings/finding.ts';
import type { RestSolved } from '../../core/solve/rest-result.ts';
import { levelsBySubject } from '../levels.ts';
import { NOTHING, numbersOf } from '../shown.ts';
import type { Numbers, Shown } from '../shown.ts';
import type { Choices } from '../sheet.ts';
import { ratingWords, symbolOf } from '../symbols/kind-symbols.ts';
import type { MarkLine, Voltage, WireText } from './mark.ts';
import { quiet, stateNow, still, voltageBetween } from './state-now.ts';
import type { StateNow } from './state-now.ts';

export interface CarTexts {
  readonly numbers: Numbers;
  readonly state: StateNow;
  readonly solved: RestSolved | undefined;
  readonly level: (subject: string) => Level | undefined;
  readonly runText: (run: CarRun) => WireText;
  readonly voltageOf: (run: CarRun) => Voltage;
  /** what the file says that a part is made for; `most` lines */
  readonly rating: (part: CarPart, most?: number) => readonly MarkLine[];
  /** into a point from its runs, without sign [A]; 0 where no run ends; undefined when nothing was solved */
  readonly currentAt: (point: string) => number | undefined;
  readonly current: (key: string, amperes: number | undefined) => Shown;
  readonly voltage: (key: string, a: string, b: string) => Shown;
  readonly between: (a: string, b: string) => number | undefined;
  readonly runsAt: (point: string) => readonly CarRun[];
  readonly position: (element: string) => 'open' | 'closed' | undefined;
}

export function carTexts(analysis: Analysis, choices: Choices): CarTexts {
  const { car, build, findings } = analysis;
  const printed = numbersOf(build, choices.units);
  // many runs are of one stock: its numbers are printed once
  const numbers: Numbers = { ...printed, field: once(printed.field) };
  const levels = levelsBySubject(findings);
  const state = stateNow(analysis, choices.state);
  const { solved } = state;
  const at = new Map<string, CarRun[]>();
  for (const run of car.runs.values()) {
    for (const point of [run.from, run.to]) {
      const list = at.get(point);
      if (list) list.push(run);
      else at.set(point, [run]);
    }
  }
  const current: CarTexts['current'] = (key, amperes) => numbers.result(`now ${key} current`, quiet(amperes), 'current');
  return {
    numbers, state, solved, current,
    level: (subject) => levels.get(subject),
    runText: once((run) => { const level = levels.get(run.name); return { run: run.name, size: sizeOf(run, analysis, numbers), ...(level === undefined || level === 'holds' ? {} : { level }) }; }),
    voltageOf: ({ carries }) => (carries === 'high_voltage' ? 'high' : carries === 'low_voltage' ? 'low' : 'signal'),
    rating: (part, most = 1) => ratingOf(part, numbers, most),
    currentAt: (point) => solved && Math.abs((at.get(point) ?? []).reduce((sum, { name, from }) => sum + (from === point ? 1 : -1) * solved.currentOf(name), 0)),
    between: (a, b) => still(voltageBetween(solved, a, b)),
    voltage: (key, a, b) => numbers.result(`now ${key} voltage`, still(voltageBetween(solved, a, b)), 'voltage'),
    runsAt: (point) => at.get(point) ?? [],
    position: (element) => { const found = solved?.stateOf(element); return found === 'open' || found === 'closed' ? found : undefined; },
  };
}

/** The answer to each question is worked out once. */
export function once<A, B>(answer: (question: A) => B): (question: A) => B {
  const known = new Map<A, B>();
  return (question) => {
    if (known.has(question)) return known.get(question) as B;
    const found = answer(question);
    known.set(question, found);
    return found;
  };
}

/** Metal of a run: cross-section of a cable, width and thickness of a bar; — when the file says neither. */
function sizeOf(run: CarRun, { build }: Analysis, { field }: Numbers): MarkLine {
  const stock = build.runs.get(run.name)?.stock;
  // the run's own word goes before that of its stock
  const of = (name: string): Shown | undefined => (build.places.has(`runs.${run.name}.${name}`) || stock === undefined ? field(`runs.${run.name}.${name}`) : field(`stock.${stock}.${name}`));
  const area = of('conductor_area');
  if (area) return { shown: area };
  const [width, thickness] = [of('width'), of('thickness')];
  if (!width || !thickness) return { after: NOTHING };
  const [number, unit] = [width.text.split(' ')[0] ?? '', width.text.split(' ').slice(1).join(' ')];
  return { shown: { ...width, text: thickness.text.endsWith(` ${unit}`) ? number : width.text }, after: ` × ${thickness.text}` };
}

function ratingOf(part: CarPart, { field }: Numbers, most: number): readonly MarkLine[] {
  const { rating } = symbolOf(part.kind.kind);
  const found = rating.flatMap((name): MarkLine[] => {
    const shown = field(`parts.${part.name}.${name}`);
    return shown === undefined ? [] : [{ before: ratingWords[name] ?? '', shown }];
  });
  const [first] = rating;
  return found.length > 0 || first === undefined ? found.slice(0, most) : [{ before: ratingWords[first] ?? '', after: NOTHING, isMuted: true }];
}
