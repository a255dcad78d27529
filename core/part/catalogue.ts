/**
 * The handbook as the core sees it: rows and tables handed in as an argument. Data only; `catalogue/` holds it.
 */
import type { QuantityName } from '../quantity/quantity-table.ts';

export interface HandbookRow {
  readonly key: string;
  readonly quantity: QuantityName;
  /** as written, with unit, read by the same reader as the build file: `0.3 mΩ`, range `0.1..0.5 mΩ` */
  readonly value: string;
  /** the range that values in the trade take; becomes the spread */
  readonly range: string;
  /** key in SOURCES.md */
  readonly source: string;
  readonly note: string;
}

/** Rows of numbers in SI, first column ascending. */
export interface HandbookTable {
  readonly key: string;
  readonly columns: readonly { readonly name: string; readonly quantity: QuantityName }[];
  readonly rows: readonly (readonly number[])[];
  readonly source: string;
  readonly note: string;
}

export interface Catalogue {
  readonly rows: ReadonlyMap<string, HandbookRow>;
  readonly tables: ReadonlyMap<string, HandbookTable>;
}
