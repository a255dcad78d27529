/** The run kinds, by name. */
import type { RunKinds } from '../part/run-kind.ts';
import { runBusbar } from './run-busbar.ts';
import { runCable } from './run-cable.ts';
import { runWire } from './run-wire.ts';

export const runKinds: RunKinds = new Map([runCable, runWire, runBusbar].map((kind) => [kind.kind, kind]));
