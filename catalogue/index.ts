/**
 * The handbook: every row and table, handed to the core as an argument. Data only; a duplicate key stops the program.
 */
import type { Catalogue } from '../core/part/catalogue.ts';
import { assemble } from './assemble.ts';
import { cellRows, cellTables } from './cells.ts';
import { conductorRows, conductorTables } from './conductors.ts';
import { fuseRows, fuseTables } from './fuses.ts';
import { highVoltageRows } from './high-voltage.ts';
import { conditionRows } from './conditions.ts';
import { lowVoltageRows } from './low-voltage.ts';
import { runRows } from './runs.ts';

export const catalogue: Catalogue = assemble(
  [conditionRows, conductorRows, cellRows, fuseRows, highVoltageRows, lowVoltageRows, runRows],
  [conductorTables, cellTables, fuseTables],
);

export { sources, sourcesPage } from './sources.ts';
