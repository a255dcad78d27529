import { test } from 'vitest';
import { writeFileSync } from 'node:fs';
import { referencePage } from '../core/build/reference-page.ts';
import { words } from '../cli/words.ts';
test('x', () => { writeFileSync('/tmp/x2/ref.md', referencePage(words)); });
