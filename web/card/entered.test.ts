import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { words } from '../../catalogue/words.ts';
import { editBuild } from '../../core/build/edit-build.ts';
import { emptyMemory } from '../../core/build/source-memory.ts';
import { readBuild } from '../../core/build/read-build.ts';
import { enteredAt } from './entered.ts';

const plain = (value: unknown): unknown => JSON.parse(JSON.stringify(value, (key, inner: unknown) => (key === 'path' ? undefined : inner)));

test.each([['bakery-van', ['M1', 'VCU', 'KEY']], ['two-string-coupe', ['A1']]] as const)('copies of parts of %s read like the parts they are of', (name, some) => {
  const text = readFileSync(`examples/${name}/build.yaml`, 'utf8');
  const { parts } = readBuild(text, words);
  const memory = emptyMemory();
  for (const part of some) {
    const result = editBuild(text, { do: 'insert', into: 'parts', key: `${part}-copy`, value: enteredAt(text, `parts.${part}`) ?? '', force: true }, words, memory);
    if (!result.ok) throw new Error(result.problem.message);
    const copy = readBuild(result.text, words, memory).parts.get(`${part}-copy`);
    expect(copy?.kind).toBe(parts.get(part)?.kind);
    expect(plain(copy?.fields)).toEqual(plain(parts.get(part)?.fields));
  }
});
