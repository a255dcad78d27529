/** halfshaft schema */
import { buildSchema } from '../../core/build/json-schema.ts';
import { words } from '../../catalogue/words.ts';

export function schema(): void {
  process.stdout.write(`${JSON.stringify(buildSchema(words), null, 2)}\n`);
}
