/** Findings as a person reads them in a terminal. */
import type { Analysis } from '../../core/analyse.ts';
import type { Build } from '../../core/build/build.ts';
import { handbookUsers } from '../../core/build/handbook-users.ts';
import type { Finding } from '../../core/findings/finding.ts';
import { levelOrder } from '../../core/findings/finding.ts';
import { printQuantity, printValue } from '../../core/quantity/print-quantity.ts';
import { bold, faint, levelCount, levelMark, MARK } from './paint.ts';
import { wrapped } from './wrapped.ts';

export interface ShowOptions { readonly file: string; readonly showAll: boolean; readonly draws: number; readonly width: number }

/** The usual cautions, on every first screen. */
export const cautions = [
  'High voltage kills and burns. This computes from the numbers in the file; it proves nothing about the car in front of you.',
  'A circuit is dead only when a meter, tried on a known source before and after, says so. Local codes, licensed people and inspection decide.',
  'Insulated gloves for the voltage, a second person, no jewellery, wheels off the ground, lock-out.',
];

export function findingsText(analysis: Analysis, options: ShowOptions): string {
  const { findings, build, next } = analysis;
  const lines: string[] = [bold(build.name === '' ? options.file : build.name)];
  if (build.scenario !== undefined) lines.push(...wrapped(build.scenario, options.width));
  lines.push('', ...cautions.flatMap((line) => wrapped(line, options.width)).map(faint), '');
  lines.push(levelOrder.map((level) => levelCount(level, findings.filter((finding) => finding.level === level).length)).join('   '), '');
  for (const [worst, ...others] of groups(findings.filter(({ level }) => options.showAll || level !== 'holds'), options.showAll)) {
    if (!worst) continue;
    lines.push(...findingLines(worst, analysis, options));
    if (others.length > 0) lines.push(...wrapped(`also ${others.map(nameOf).join('; ')}`, options.width - INDENT.length).map((line) => INDENT + faint(line)));
    lines.push('');
  }
  const hidden = findings.filter(({ level }) => level === 'holds').length;
  if (!options.showAll && hidden > 0) lines.push(faint(`${hidden} checks hold; --all lists them. halfshaft explain CODE tells what a check rests on.`));
  if (build.parts.size > 0) lines.push(faint('Not counted here: what one failure must not do; halfshaft failures tells.'));
  if (options.draws === 0) lines.push(faint('Computed at the nominal values. --draws 1000 adds the chance that each holds, and what to measure.'));
  lines.push(...worthLines(analysis), '', bold('Next: ') + wrapped(next.do, options.width - 6).join('\n      '));
  return `${lines.join('\n')}\n`;
}

const INDENT = ' '.repeat(MARK);

/** Findings of one code and level together, the narrowest margin first; each by itself when asked, when two at most, or when each says something else. */
function groups(findings: readonly Finding[], each: boolean): Finding[][] {
  const byCode = new Map<string, Finding[]>();
  for (const finding of findings) {
    const key = `${finding.level} ${finding.code}`;
    byCode.set(key, [...(byCode.get(key) ?? []), finding]);
  }
  return [...byCode.values()].flatMap((group) => (each || group.length <= 2 || group[0]?.topic === 'file'
    ? group.map((finding) => [finding])
    : [[...group].sort((a, b) => (a.margin ?? 0) - (b.margin ?? 0))]));
}

function nameOf(finding: Finding): string {
  return `${finding.about.join('+')}${finding.variant === undefined ? '' : ` (${finding.variant})`}`;
}

function findingLines(finding: Finding, analysis: Analysis, options: ShowOptions): string[] {
  const where = finding.place ? `${options.file}:${finding.place.line}:${finding.place.column}` : options.file;
  const chance = finding.chance === undefined || finding.level === 'unknown' || finding.sense === 'is_true' ? '' : `, holds with a chance of ${percent(finding.chance)}`;
  const indent = INDENT;
  const code = `${finding.code}${finding.variant !== undefined && finding.topic !== 'file' ? ` (${finding.variant})` : ''}${chance}`;
  const places = code.length + 2 + where.length <= options.width - indent.length ? [`${code}  ${where}`] : [...wrapped(code, options.width - indent.length), where];
  const lines = [`${levelMark(finding.level)} ${wrapped(finding.statement, options.width - MARK).join(`\n${indent}`)}`, ...places.map((line) => indent + faint(line))];
  if (finding.whatToDo !== '') lines.push(...wrapped(`→ ${finding.whatToDo}`, options.width - MARK).map((line) => indent + line));
  const settled = finding.settledBy[0];
  if (settled) {
    const toWithin = settled.precision === undefined || settled.quantity === 'number' ? '' : ` to within ±${printValue(settled.precision, settled.quantity === 'temperature' ? 'temperature_difference' : settled.quantity, { system: analysis.build.units })}`;
    lines.push(...wrapped(`most of the doubt (${percent(settled.share)}) is in ${askFor(settled.path, analysis.build, toWithin)}`, options.width - indent.length).map((line) => indent + faint(line)));
  }
  return lines;
}

function worthLines(analysis: Analysis): string[] {
  const worth = analysis.worthMeasuring.slice(0, 5);
  if (worth.length === 0) return [];
  return ['', bold('Most worth measuring'), ...worth.map(({ path, quantity, settles }, index) =>
    `  ${index + 1}. ${askFor(path, analysis.build, '')}  ${faint(`now ${printQuantity(quantity)}; bears on ${settles.length} finding${settles.length === 1 ? '' : 's'}: ${settles.slice(0, 3).map(({ code, about }) => `${code} ${about.join('+')}`).join(', ')}`)}`)];
}

/** What to measure, or, for a value of the handbook, where to write the part's own. */
function askFor(path: string, build: Build, toWithin: string): string {
  if (!path.startsWith('handbook:')) return `${path}: measure it${toWithin}`;
  const users = handbookUsers(build, path);
  const more = users.length > 1 ? ` (and ${users.length - 1} like it)` : '';
  return users[0] === undefined ? path : `${users[0]}${more}, for now a usual value: write your own${toWithin}`;
}

/** Never 0 % or 100 % for what was merely never, or always, drawn. */
export function percent(share: number): string {
  if (share <= 0.005) return 'under 1 %';
  if (share >= 0.995) return 'over 99 %';
  return `${Math.round(share * 100)} %`;
}
