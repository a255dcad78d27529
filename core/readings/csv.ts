/**
 * Tables as text: one record a line, fields parted by commas, quoted where they hold a comma, a quote or a line break.
 *
 * Own lines instead of a package: the reader must say on which line and column each field stands, must go on behind a record that a
 * crash has cut, and must run without disk or stream; that is most of what there is to it.
 *
 * Source:  RFC 4180
 * Checked: csv.test.ts
 */

export interface CsvRecord {
  readonly fields: readonly string[];
  /** line and column on which each field begins, from 1. Lists of numbers: an object for each field would be most of the time of reading. */
  readonly lines: readonly number[]; readonly columns: readonly number[];
  /** line on which it begins, from 1 */
  readonly line: number;
  /** it ends with a line end; the last one of a file may not */
  readonly isClosed: boolean;
  /** a quoted field was never closed */
  readonly hasOpenQuote: boolean;
  /** places where a quote stands in the middle of a field, or letters behind a closing quote: read as they stand */
  readonly strayQuotes: readonly { readonly line: number; readonly column: number }[];
}

const [QUOTE, COMMA, CR, LF] = [0x22, 0x2c, 0x0d, 0x0a];

/**
 * Reads a table. Line ends may be CRLF, LF or CR; a byte order mark in front is passed over; empty lines are no records.
 * Shape: pure, one pass, never throws on a text, however bad
 */
export function readCsv(text: string): CsvRecord[] {
  const records: CsvRecord[] = [];
  let at = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  let line = 1;
  let lineStart = at;
  while (at < text.length) {
    const fields: string[] = [];
    const lines: number[] = [];
    const columns: number[] = [];
    const strayQuotes: { line: number; column: number }[] = [];
    const recordLine = line;
    let [isClosed, hasOpenQuote] = [false, false];
    for (;;) {
      lines.push(line);
      columns.push(at - lineStart + 1);
      let value = '';
      if (text.charCodeAt(at) === QUOTE) {
        let from = ++at;
        for (;;) {
          const code = text.charCodeAt(at);
          if (at >= text.length) { value += text.slice(from); hasOpenQuote = true; break; }
          if (code === QUOTE) {
            value += text.slice(from, at);
            if (text.charCodeAt(at + 1) !== QUOTE) { at++; break; }
            value += '"';
            from = at += 2;
            continue;
          }
          if (code === LF || (code === CR && text.charCodeAt(at + 1) !== LF)) { line++; lineStart = at + 1; }
          at++;
        }
      }
      const from = at;
      for (;;) {
        const code = text.charCodeAt(at);
        if (at >= text.length || code === COMMA || code === LF || code === CR) break;
        if (code === QUOTE) strayQuotes.push({ line, column: at - lineStart + 1 });
        at++;
      }
      if (at > from) {
        if (from > 0 && text.charCodeAt(from - 1) === QUOTE && value !== '' && strayQuotes.length === 0) strayQuotes.push({ line, column: from - lineStart + 1 });
        value += text.slice(from, at);
      }
      fields.push(value);
      if (text.charCodeAt(at) !== COMMA || at >= text.length) break;
      at++;
    }
    if (at < text.length) {
      isClosed = true;
      at += text.charCodeAt(at) === CR && text.charCodeAt(at + 1) === LF ? 2 : 1;
      line++;
      lineStart = at;
    }
    if (fields.length > 1 || fields[0] !== '' || hasOpenQuote) records.push({ fields, lines, columns, line: recordLine, isClosed, hasOpenQuote, strayQuotes });
  }
  return records;
}

/** One record as a line, with its line end. */
export function printCsv(fields: readonly string[]): string {
  // an empty line would be no record
  if (fields.length === 1 && fields[0] === '') return '""\r\n';
  return `${fields.map((field) => (/[",\r\n]|^\uFEFF/.test(field) ? `"${field.replaceAll('"', '""')}"` : field)).join(',')}\r\n`;
}
