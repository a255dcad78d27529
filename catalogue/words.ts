/** The vocabulary that every program here hands to the core: all kinds and the whole catalogue. */
import type { Words } from '../core/build/read-build.ts';
import { kinds } from '../core/kinds/all.ts';
import { runKinds } from '../core/kinds/run-kinds.ts';
import { catalogue } from './index.ts';

export const words: Words = { kinds, runKinds, catalogue };
