/**
 * The layout engine, fetched when a diagram is first laid out: it is larger than the whole rest of the program.
 *
 * Inside a web worker the engine takes itself for the worker script: it puts its own handler on `self.onmessage` and exports nothing.
 * It looks for `document` to tell where it is, so it is shown one while it loads; then it leaves the handler alone.
 */
import type { ElkNode } from 'elkjs/lib/elk-api.js';

export interface Engine { readonly layout: (graph: ElkNode) => Promise<ElkNode> }

interface Surroundings { document?: unknown; self?: unknown }

let engine: Promise<Engine> | undefined;

export function loadElk(): Promise<Engine> {
  return (engine ??= load());
}

async function load(): Promise<Engine> {
  const around = globalThis as unknown as Surroundings;
  const isWorker = around.document === undefined && around.self !== undefined;
  if (isWorker) around.document = {};
  try {
    const module = (await import('elkjs/lib/elk.bundled.js')) as unknown as { readonly default: (new () => Engine) | { readonly default: new () => Engine } };
    // a CommonJS module: the constructor stands one level deeper in Node than in a bundle
    const Constructor = typeof module.default === 'function' ? module.default : module.default.default;
    return new Constructor();
  } finally {
    if (isWorker) delete around.document;
  }
}
