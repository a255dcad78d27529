import type { Catalogue, HandbookRow, HandbookTable } from '../core/part/catalogue.ts';

/**
 * One catalogue from lists of rows and tables.
 *
 * Errors: throws when two rows or two tables have one key, a key is empty, or a table's rows do not rise by their first column
 */
export function assemble(rowLists: readonly (readonly HandbookRow[])[], tableLists: readonly (readonly HandbookTable[])[]): Catalogue {
  const tables = byKey(tableLists.flat(), 'table');
  for (const table of tables.values()) {
    table.rows.forEach((row, index) => {
      if (row.length !== table.columns.length) throw new Error(`handbook table ${table.key}: row ${index} has ${row.length} numbers for ${table.columns.length} columns`);
      const before = table.rows[index - 1];
      if (before !== undefined && !(row[0]! > before[0]!)) throw new Error(`handbook table ${table.key}: row ${index} does not rise`);
    });
  }
  return { rows: byKey(rowLists.flat(), 'row'), tables };
}

function byKey<T extends { readonly key: string }>(entries: readonly T[], what: string): ReadonlyMap<string, T> {
  const found = new Map<string, T>();
  for (const entry of entries) {
    if (entry.key === '') throw new Error(`a handbook ${what} has no key`);
    if (found.has(entry.key)) throw new Error(`two handbook ${what}s have the key ${entry.key}`);
    found.set(entry.key, entry);
  }
  return found;
}
