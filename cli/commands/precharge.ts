/** halfshaft precharge BUILD */
import { existsSync, readFileSync, statSync } from 'node:fs';
import { analyse } from '../../core/analyse.ts';
import { printValue } from '../../core/quantity/print-quantity.ts';
import type { HighVoltageResults } from '../../core/topics/high-voltage/study.ts';
import type { PrechargeResult } from '../../core/topics/high-voltage/precharge.ts';
import { openBuild } from '../open-build.ts';
import { bold } from '../show/paint.ts';
import { plotText } from '../show/plot.ts';
import type { Terminal } from '../terminal.ts';
import { words } from '../../catalogue/words.ts';
import { writeWhole } from '../write-whole.ts';
import { WrongCall } from '../wrong-call.ts';

export async function precharge(path: string, options: { readonly csv?: string }, { print, columns }: Terminal): Promise<void> {
  const { file, text } = openBuild(path);
  const analysis = analyse(text, words, { only: ['high-voltage'] });
  const { precharges } = (analysis.results['high-voltage'] as HighVoltageResults).precharge;
  if (precharges.length === 0) throw new WrongCall(`${file}: no mode fills a DC link through a precharge part, so there is no curve.`);
  if (options.csv === '-') { print(csvText(precharges)); return; }
  for (const result of precharges) print(`${curveText(result, columns)}\n`);
  if (options.csv !== undefined) {
    refuseOther(options.csv);
    await writeWhole(options.csv, csvText(precharges));
    print(`Wrote ${options.csv}\n`);
  }
}

const HEADER = 'mode,by,time_s,voltage_V,current_A';

/** Writes over an older curve, and over nothing else. */
function refuseOther(file: string): void {
  if (!existsSync(file)) return;
  if (!statSync(file).isFile()) throw new WrongCall(`${file} is no file; nothing was written.`);
  if (!readFileSync(file, 'utf8').startsWith(HEADER)) throw new WrongCall(`${file} is there already and is no precharge curve; nothing was written.`);
}

/** RFC 4180, SI numbers; one row a point of each curve. */
function csvText(precharges: readonly PrechargeResult[]): string {
  const rows = precharges.flatMap(({ mode, by, curve }) => curve.map(({ time, voltage, current }) => [mode, by, ...[time, voltage, current].map((value) => value.toPrecision(7))].join(',')));
  return [HEADER, ...rows, ''].join('\r\n');
}

function curveText(result: PrechargeResult, columns = 90): string {
  const volts = (value: number): string => printValue(value, 'voltage');
  const seconds = (value: number): string => printValue(value, 'time');
  const lines = [
    bold(`Mode ${result.mode}: ${result.by} fills ${result.links.join(', ')}`),
    `${printValue(result.capacitance, 'capacitance')} ${result.resistance === undefined ? 'by a converter' : `through ${printValue(result.resistance, 'resistance')}`} to a full pack of ${volts(result.packVoltage)}`,
    '',
    ...plotText(result.curve.map(({ time, voltage }) => ({ time, value: voltage })), { columns: Math.min(72, Math.max(30, columns - 16)), rows: 14, timeLabel: seconds, valueLabel: volts, marks: [{ value: result.packVoltage, name: 'full pack' }] }),
    '',
    result.timeToFull === undefined ? `It never gets there: it comes to rest at ${volts(result.endVoltage)}.` : `It gets there in ${seconds(result.timeToFull)}${result.lasts === undefined ? '; the mode does not say how long it waits' : `; the mode waits ${seconds(result.lasts)}`}.`,
    ...(result.residual === undefined ? [] : [`Left between pack and links when the mode is over: ${volts(result.residual)}.`]),
    'Before the main contactor is closed by hand or by trial, a meter shows what is left; this curve proves nothing.',
  ];
  return `${lines.join('\n')}\n`;
}
