/** halfshaft schema */
import { buildSchema } from '../../core/build/json-schema.ts';
import { words } from '../../catalogue/words.ts';
import type { Terminal } from '../terminal.ts';

export function schema({ print }: Terminal): void {
  print(`${JSON.stringify(buildSchema(words), null, 2)}\n`);
}
