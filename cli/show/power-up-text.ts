/** The power-up procedure as a checklist. */
import type { Build } from '../../core/build/build.ts';
import type { Band, Limit, PowerUpStep } from '../../core/power-up/step.ts';
import { SETTLE_STEP } from '../../core/power-up/held-steps.ts';
import { phases } from '../../core/power-up/step.ts';
import { printValue } from '../../core/quantity/print-quantity.ts';
import type { QuantityName } from '../../core/quantity/quantity-table.ts';
import { bold, faint } from './paint.ts';
import type { ShownStep } from './power-up-json.ts';
import { wrapped } from './wrapped.ts';

interface ShowOptions { readonly total: number; readonly width: number }

const INDENT = ' '.repeat(8);

export function powerUpText(build: Build, shown: readonly ShownStep[], { total, width }: ShowOptions): string {
  const holds = shown.filter(({ step }) => step.isHoldPoint).length;
  const lines = [
    bold(`${build.name}: first power-up, ${total} steps`),
    ...wrapped('This work can kill and can burn a house down. Qualified help, local codes and inspection decide. What follows was computed from the build file; a model never proves that a circuit is dead, only a meter does, tried on a known source before and after.', width),
    faint(`■ hold point (${holds}): do not go on until its reading is in and right.  · other step.`),
  ];
  let phase: PowerUpStep['phase'] | undefined;
  for (const { step, number, causes } of shown) {
    if (step.phase !== phase) lines.push('', bold(phases[step.phase]));
    phase = step.phase;
    const isHeld = step.heldBy !== undefined && step.id !== SETTLE_STEP;
    lines.push('', `[ ] ${step.isHoldPoint ? '■' : '·'} ${number}  ${bold(`${isHeld ? 'HELD: ' : ''}${step.title}`)}  ${faint(step.id)}`);
    const say = (label: string, text: string): void => { if (text !== '') lines.push(...wrapped(`${label}${text}`, width - INDENT.length).map((line) => INDENT + line)); };
    say('State: ', step.stands ?? '');
    say('', step.action);
    say('With: ', step.instrument ? `${step.instrument.name}${step.instrument.category === undefined ? '' : `, ${step.instrument.category}`}` : '');
    say('Reads: ', readingOf(step));
    say('Limit: ', step.limit && step.quantity ? limitOf(step.limit, step.quantity) : step.limit ? limitOf(step.limit, 'resistance') : '');
    if (step.willFail) say('', 'The file’s own values pass this limit: put that right first.');
    say('Right: ', step.expect);
    say('If instead: ', step.instead ?? '');
    say('Where: ', step.people);
    for (const caution of step.cautions) say('Caution: ', caution);
    for (const { part, meaning, reads } of causes) say('Else: ', `${part}: ${meaning} (${reads === undefined ? 'then nothing conducts' : `then about ${printValue(plain(reads), step.quantity!)}`})`);
    say('Not known: ', step.unknown.join(', '));
    lines.push(`${INDENT}${isHeld ? 'settled: __________  ' : step.measure ?? step.instrument ? 'measured: __________  ' : ''}by: __________  at: __________`);
  }
  return `${lines.join('\n')}\n`;
}

function readingOf({ predicted, notPredicted, quantity, measure }: PowerUpStep): string {
  if (!measure || quantity === undefined) return '';
  if (!predicted) return `no prediction: ${notPredicted ?? ''}`;
  return bandText(predicted, quantity);
}

/** `336 V, right from 327 V to 345 V`. */
function bandText({ nominal, low, high }: Band, quantity: QuantityName): string {
  return `${printValue(plain(nominal), quantity)}, right from ${printValue(plain(low), quantity)} to ${printValue(plain(high), quantity)}`;
}

/** What no meter shows is zero. */
const plain = (value: number): number => (Math.abs(value) < 1e-5 ? 0 : value);

function limitOf({ sense, value, to, source }: Limit, quantity: QuantityName): string {
  const print = (number: number): string => printValue(number, quantity);
  const said = sense === 'between' ? `${print(value)} to ${print(to ?? value)}` : `${sense === 'at_least' ? 'at least' : 'at the most'} ${print(value)}`;
  return `${said} (${source})`;
}
