/** The tables under the plots: what must hold, what happens when the contactor closes, how the capacitors empty. */
import type { Finding } from '../../core/findings/finding.ts';
import type { DischargeResult } from '../../core/topics/high-voltage/discharge.ts';
import { ACTIVE_LIMIT, PASSIVE_LIMIT, TOUCHABLE, UNPLUGGED_LIMIT } from '../../core/topics/high-voltage/discharge.ts';
import type { ClosingResult } from '../../core/topics/high-voltage/link-closing.ts';
import { farMargin, marginDigits } from '../margin-words.ts';
import { levelOrder, worstLevel } from '../levels.ts';
import { down, up } from '../shown.ts';
import type { Numbers } from '../shown.ts';
import type { Section } from '../table/flow.tsx';
import { fewNames } from '../table/few-names.ts';
import type { Cell, Column, Row } from '../table/table.ts';

const checkColumns: readonly Column[] = [{ head: 'Stands at', width: 30 }, { head: 'What was found', width: 200 }, { head: 'What to do', width: 140 }, { head: 'Margin', width: 22, align: 'end' }];

/** Of each code everything that does not hold, else the one that holds by least. Worst first. */
export function checkSection(title: string, findings: readonly Finding[], numbers: Numbers): Section {
  const byCode = new Map<string, Finding[]>();
  for (const finding of findings) byCode.set(finding.code, [...(byCode.get(finding.code) ?? []), finding]);
  const kept = [...byCode.values()].flatMap((same) => {
    const open = same.filter(({ level }) => level !== 'holds');
    return open.length > 0 ? open : [same.reduce((least, one) => ((one.margin ?? Infinity) < (least.margin ?? Infinity) ? one : least))];
  }).sort((a, b) => levelOrder.indexOf(a.level) - levelOrder.indexOf(b.level));
  return {
    title,
    table: {
      columns: checkColumns,
      rows: kept.length === 0 ? [{ heading: 'Nothing could be checked.' }] : kept.map((finding): Row => ({
        path: finding.path, label: finding.statement,
        cells: [{ level: finding.level }, finding.statement, finding.whatToDo, marginCell(finding, numbers)],
      })),
    },
  };
}

function marginCell({ code, about, variant, margin, limit }: Finding, numbers: Numbers): Cell {
  if (margin === undefined) return undefined;
  return farMargin(margin) ?? (limit === 0 ? '' : numbers.result(`margin.${code} ${about.join(' ')} ${variant ?? ''}`, margin, 'ratio', marginDigits));
}

const closingColumns: readonly Column[] = [
  { head: 'From mode', width: 36 }, { head: 'To mode', width: 36 }, { head: 'Closes onto', width: 74 }, { head: 'Nothing filled', width: 50 }, { head: 'Left between', width: 26, align: 'end' },
  { head: 'Peak of the rush', width: 28, align: 'end' }, { head: 'after', width: 24, align: 'end' }, { head: 'I²t', width: 28, align: 'end' }, { head: 'Energy', width: 26, align: 'end' }, { head: 'Stands at', width: 32, gap: 4 },
];

export function closingSection(closings: readonly ClosingResult[], findings: readonly Finding[], numbers: Numbers): Section {
  return {
    title: 'Closing onto the capacitors',
    note: 'What rushes through the main contactor when it closes: limited only by the resistance and the inductance of the loop. From a full pack.',
    table: {
      columns: closingColumns,
      rows: closings.length === 0 ? [{ heading: 'No mode puts a capacitor on the pack.' }] : closings.map((closing): Row => {
        const variant = `${closing.from ?? 'everything off'} to ${closing.to}`;
        const key = `closing.${variant}`;
        const own = findings.filter((finding) => finding.variant === variant && finding.topic === 'high-voltage');
        const worst = worstLevel(own.map(({ level }) => level));
        return {
          cells: [
            closing.from ?? 'everything off', closing.to, fewNames(closing.links), closing.notPrecharged.length === 0 ? 'all were filled' : [fewNames(closing.notPrecharged), numbers.result(`${key}.direct`, closing.directEnergy, 'energy', up)],
            numbers.result(`${key}.difference`, closing.difference, 'voltage', up), numbers.result(`${key}.peak`, closing.inrush?.peak, 'current', up), numbers.result(`${key}.time`, closing.inrush?.peakTime, 'time'),
            numbers.result(`${key}.heating`, closing.inrush?.heating, 'heating_integral', up), numbers.result(`${key}.energy`, closing.inrush?.energy, 'energy', up), worst === undefined ? undefined : { level: worst },
          ],
        };
      }),
    },
  };
}

const dischargeColumns: readonly Column[] = [
  { head: 'Capacitors of', width: 78 }, { head: 'Capacitance', width: 26, align: 'end' }, { head: 'Full pack', width: 22, align: 'end' }, { head: 'Energy', width: 24, align: 'end' }, { head: 'Emptied through', width: 40, align: 'end' },
  { head: 'By itself to 60 V', width: 36, align: 'end' }, { head: 'On command to 60 V', width: 42, align: 'end' }, { head: 'Bleeder that does it in time', width: 34, align: 'end' }, { head: 'Stands at', width: 32, gap: 4 },
];

export function dischargeSection(results: readonly DischargeResult[], findings: readonly Finding[], highest: number | undefined, numbers: Numbers): Section {
  const { say } = numbers;
  const none = highest !== undefined && highest <= TOUCHABLE ? `The pack stays at or below ${say(TOUCHABLE, 'voltage')}: nothing has to be emptied for touching. The capacitors still spark and burn when they are shorted.` : 'No capacitor is cut off from the pack when everything is open, or the voltage is not known.';
  return {
    title: 'Emptying the capacitors after switching off',
    note: `To ${say(TOUCHABLE, 'voltage')}, the end of voltage class B. By itself ${say(PASSIVE_LIMIT, 'time')} is makers’ practice for road cars. On command ${say(ACTIVE_LIMIT, 'time')} is what IEC 60204-1 asks of machines, a comparison. Within ${say(UNPLUGGED_LIMIT, 'time')} where a plug comes apart without tools (UN R100), else its contacts must be finger-proof. Only a meter shows that they are empty.`,
    table: {
      columns: dischargeColumns,
      rows: results.length === 0 ? [{ heading: none }] : results.map((result): Row => {
        const key = `discharge.${result.links.join('+')}`;
        // a finding may name fewer of them, those behind a plug
        const own = findings.filter(({ code, about }) => code.startsWith('high-voltage.discharge-') && about.every((name) => result.links.includes(name)));
        const worst = worstLevel(own.map(({ level }) => level));
        const through: Cell = result.resistance === undefined ? 'nothing' : [numbers.result(`${key}.resistance`, result.resistance, 'resistance'), { text: result.bleederPower > 0 ? 'bleeders' : 'leaks alone, no bleeder', tone: 'muted' }];
        return {
          cells: [
            fewNames(result.links), numbers.result(`${key}.capacitance`, result.capacitance, 'capacitance'), numbers.result(`${key}.voltage`, result.voltage, 'voltage', up), numbers.result(`${key}.energy`, result.energy, 'energy', up), through,
            result.passiveTime === undefined ? { text: 'never', face: 'strong', tone: 'red' } : [numbers.result(`${key}.passive`, result.passiveTime, 'time', up), { text: `${say(PASSIVE_LIMIT, 'time')} is usual`, tone: 'muted' }],
            result.activeTime === undefined ? { text: 'not provided', tone: 'muted' } : [numbers.result(`${key}.active`, result.activeTime, 'time', up), { text: `by ${result.activeBy ?? '—'}`, tone: 'muted' }],
            numbers.result(`${key}.needed`, result.bleederForLimit, 'resistance', down), result.isExempt ? 'too little charge to count' : worst === undefined ? undefined : { level: worst },
          ],
        };
      }),
    },
  };
}
