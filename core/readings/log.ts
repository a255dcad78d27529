/**
 * The text of readings.csv: read whole, tolerantly, and printed line by line.
 *
 * - The first record names the columns, in any order. A later record that names columns again counts from there on, so that two logs may
 *   be laid one behind the other.
 * - Columns that are not known are kept with each reading.
 * - A last line without its line end is what a crash leaves. It is taken when all its fields are there (only the end of the note can be
 *   missing then), else left out; either way it is told.
 * - A line that cannot be used is told with line, column and what was expected, and stops nothing.
 */
import { nearest } from '../quantity/nearest-spelling.ts';
import { quantities } from '../quantity/quantity-table.ts';
import { printCsv, readCsv } from './csv.ts';
import type { CsvRecord } from './csv.ts';
import { cellsOf, columns, OBSERVATION, procedures, verdictWords } from './reading.ts';
import type { Column, Reading } from './reading.ts';

export interface LogProblem {
  /** from 1, both */
  readonly line: number; readonly column: number;
  readonly found: string; readonly expected: string;
  /** `stop`: the line was left out; `note`: it was used all the same */
  readonly level: 'stop' | 'note';
}

export interface ReadingLog {
  /** in the order of the file, replaced ones too */
  readonly readings: readonly Reading[];
  readonly problems: readonly LogProblem[];
  /** the columns that a line added at the end must follow; empty for an empty file */
  readonly header: readonly string[];
  /** what must stand in front of a line that is added: closes what a crash has left open; '' when nothing is open */
  readonly close: string;
}

const needed: readonly Column[] = ['id', 'when', 'reading'];
const none: Reading['more'] = [];
const quantityWords: ReadonlySet<string> = new Set([...Object.keys(quantities), OBSERVATION]);
/** Date, time, and offset or Z. */
const moment = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d+)?)?(Z|[+-]\d{2}:?\d{2})$/;
const idRule = /^[A-Za-z0-9_-]{1,40}$/;
const shortened = (text: string): string => (text.length > 60 ? `${text.slice(0, 59)}…` : text);

/** Shape: pure; never throws on a text, however bad. Time: in proportion to the text. */
export function readLog(text: string): ReadingLog {
  const readings: Reading[] = [];
  const problems: LogProblem[] = [];
  let table: Table | undefined;
  const byId = new Map<string, Reading>();
  const records = readCsv(text);
  const last = records.at(-1);
  for (const record of records) {
    const isLast = record === last;
    if (isHeader(record)) {
      table = tableOf(record, problems);
      continue;
    }
    if (!table) {
      problems.push({ line: record.line, column: 1, found: shortened(record.fields.join(',')), expected: `the names of the columns on the first line, parted by commas: ${columns.join(',')}`, level: 'stop' });
      table = { names: [...columns], places: placesOf(columns), more: [] };
    }
    const { names } = table;
    const count = record.fields.length;
    const isCut = isLast && !record.isClosed;
    const end = record.columns.at(-1)!;
    if (count < names.length || (count > names.length && record.fields.slice(names.length).some((field) => field !== ''))) {
      problems.push({ line: record.line, column: count > names.length ? record.columns[names.length]! : end, found: `${count} fields`, expected: `${names.length}, one for each column${isCut || count < names.length ? '; the line was cut while it was written' : ''}`, level: 'stop' });
      continue;
    }
    if (isCut) problems.push({ line: record.line, column: end, found: record.hasOpenQuote ? 'a quoted field without its end' : 'a last line without its line end', expected: 'a line end; the end of the last field may be missing', level: 'note' });
    const [stray] = record.strayQuotes;
    if (stray) problems.push({ ...stray, found: 'a quote in the middle of a field', expected: 'the whole field in quotes, and each quote in it twice', level: 'note' });
    const reading = readingOf(record, table, problems);
    if (!reading) continue;
    const before = byId.get(reading.id);
    if (before) {
      // the same line twice is one reading: two logs were joined
      if (JSON.stringify(before) !== JSON.stringify(reading)) problems.push({ line: record.line, column: record.columns[table.places.id!]!, found: `id ${reading.id} a second time`, expected: 'an id of its own for each reading', level: 'stop' });
      continue;
    }
    if (reading.replaces !== '' && !byId.has(reading.replaces)) {
      problems.push({ line: record.line, column: record.columns[table.places.replaces!]!, found: `replaces ${shortened(reading.replaces)}`, expected: 'the id of a reading further up; it counts beside the others', level: 'note' });
    }
    byId.set(reading.id, reading);
    readings.push(reading);
  }
  return { readings, problems, header: table?.names ?? [], close: last === undefined || last.isClosed ? '' : last.hasOpenQuote ? '"\r\n' : '\r\n' };
}

interface Table { readonly names: readonly string[]; readonly places: Partial<Record<Column, number>>; readonly more: readonly number[] }

function placesOf(names: readonly string[]): Partial<Record<Column, number>> {
  return Object.fromEntries(columns.flatMap((column) => { const place = names.indexOf(column); return place < 0 ? [] : [[column, place]]; }));
}

/** It names the columns that no reading can do without, each by its own name. */
function isHeader({ fields }: CsvRecord): boolean {
  // every line is asked: most are done with at once
  return fields.some((field) => field.length < 8 && field.trim() === 'id') && needed.every((name) => fields.some((field) => field.trim() === name));
}

function tableOf(record: CsvRecord, problems: LogProblem[]): Table {
  const names = record.fields.map((field) => field.trim());
  names.forEach((name, index) => {
    const [line, column] = [record.lines[index]!, record.columns[index]!];
    if (names.indexOf(name) < index) problems.push({ line, column, found: `column ${shortened(name) || 'without a name'} a second time`, expected: 'each column once; the second one is kept, not read', level: 'note' });
    else if (!isKnown(name)) {
      const close = nearest(name, columns.filter((known) => !names.includes(known)));
      if (close !== undefined) problems.push({ line, column, found: `column ${shortened(name)}`, expected: `${close}, if that is what is meant; it is kept, not read`, level: 'note' });
    }
  });
  return { names, places: placesOf(names), more: names.flatMap((name, index) => (isKnown(name) && names.indexOf(name) === index ? [] : [index])) };
}

const isKnown = (name: string): name is Column => (columns as readonly string[]).includes(name);

function readingOf({ fields, lines, columns: starts, line }: CsvRecord, { names, places, more }: Table, problems: LogProblem[]): Reading | undefined {
  let isUsable = true;
  const cell = (column: Column): string => { const place = places[column]; return place === undefined ? '' : fields[place]!.trim(); };
  const wrong = (column: Column, expected: string, level: LogProblem['level']): void => {
    const place = places[column] ?? -1;
    problems.push({ line: lines[place] ?? line, column: starts[place] ?? 1, found: `${column} ${shortened(cell(column)) || 'left empty'}`, expected, level });
    if (level === 'stop') isUsable = false;
  };
  if (!idRule.test(cell('id'))) wrong('id', 'letters and digits, at most 40', 'stop');
  if (!moment.test(cell('when'))) wrong('when', 'date and time such as 2026-11-25T14:30:00Z', 'stop');
  if (cell('reading') === '') wrong('reading', 'a value with its unit, such as 12.4 V, or yes or no', 'stop');
  const procedure = oneOf(procedures, cell('procedure')) ?? (cell('step') === '' ? 'free' : 'power-up');
  if (cell('procedure') !== procedure && cell('procedure') !== '') wrong('procedure', `one of ${procedures.join(', ')}; taken for ${procedure}`, 'note');
  const quantity = cell('quantity');
  if (!quantityWords.has(quantity)) wrong('quantity', `what was measured, such as voltage, resistance or ${OBSERVATION}`, 'stop');
  const verdict = cell('verdict') === '' ? '' : oneOf(verdictWords, cell('verdict'));
  if (verdict === undefined) wrong('verdict', `one of ${verdictWords.join(', ')}, or nothing`, 'note');
  if (!isUsable) return undefined;
  return {
    id: cell('id'), when: cell('when'), who: cell('who'), procedure, step: cell('step'), state: cell('state'),
    points: cell('points').split(' ').filter((point) => point !== ''), quantity: quantity as Reading['quantity'], reading: cell('reading'), instrument: cell('instrument'),
    verdict: verdict ?? '', revision: cell('revision'), restsOn: cell('rests_on'), replaces: cell('replaces'), note: cell('note'),
    more: more.length === 0 ? none : more.map((place) => [names[place]!, fields[place]!] as const),
  };
}

function oneOf<T extends string>(words: readonly T[], word: string): T | undefined {
  return words.find((one) => one === word);
}

/**
 * The line that adds a reading to a log, with all that must stand before it: the end of a line that a crash has cut, and the names of
 * the columns where the file has none yet or lacks one.
 * @param log  as it was read last; another program may have added lines since
 */
export function lineFor(reading: Reading, { header, close }: Pick<ReadingLog, 'header' | 'close'>): string {
  const isFit = columns.every((column) => header.includes(column)) && reading.more.every(([name]) => header.includes(name));
  const names = isFit ? header : [...columns, ...new Set(reading.more.map(([name]) => name))];
  const cells: Readonly<Record<string, string>> = cellsOf(reading);
  const more = [...reading.more];
  const record = names.map((name, index) => {
    if (isKnown(name) && names.indexOf(name) === index) return cells[name]!;
    const found = more.findIndex(([column]) => column === name);
    return found < 0 ? '' : more.splice(found, 1)[0]![1];
  });
  return `${close}${isFit ? '' : printCsv(names)}${printCsv(record)}`;
}

/** A whole log as a file. */
export function printLog(readings: readonly Reading[]): string {
  const names = [...columns, ...new Set(readings.flatMap(({ more }) => more.map(([name]) => name)))];
  return printCsv(names) + readings.map((reading) => lineFor(reading, { header: names, close: '' })).join('');
}

/** Those that count: no later line replaces them. */
export function standing(readings: readonly Reading[]): readonly Reading[] {
  const count = new Map<string, Reading>();
  for (const reading of readings) {
    count.delete(reading.replaces);
    count.set(reading.id, reading);
  }
  return [...count.values()];
}
