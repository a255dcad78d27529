/**
 * The handbook: every row and table, handed to the core as an argument. Data only; a duplicate key stops the program.
 */
import type { Catalogue } from '../core/part/catalogue.ts';
import { assemble } from './assemble.ts';
import { cellRows, cellTables } from './cells.ts';
import { conductorRows, conductorTables } from './conductors.ts';
import { fuseRows, fuseTables } from './fuses.ts';
import { lowVoltageRows } from './low-voltage.ts';

export const catalogue: Catalogue = assemble(
  [conductorRows, cellRows, fuseRows, lowVoltageRows],
  [conductorTables, cellTables, fuseTables],
);

export { sources, sourcesPage } from './sources.ts';
