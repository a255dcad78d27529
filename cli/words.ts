/** The vocabulary that this program hands to the core: all kinds and the whole catalogue. */
import type { Words } from '../core/build/read-build.ts';
import { kinds } from '../core/kinds/all.ts';
import { runKinds } from '../core/kinds/run-kinds.ts';
import { catalogue } from '../catalogue/index.ts';

export const words: Words = { kinds, runKinds, catalogue };
