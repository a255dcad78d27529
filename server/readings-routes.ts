/** readings.csv for the page: read whole, added to one by one. docs/server.md says it for people. */
import { isUtf8 } from 'node:buffer';
import { Hono } from 'hono';
import type { HttpBindings } from '@hono/node-server';
import { ABSENT, matches } from './build-on-disk.ts';
import { LARGEST_READING, readingAsked } from './reading-asked.ts';
import { addReading, readReadings } from './readings-on-disk.ts';
import type { WatchedReadings } from './readings-watch.ts';
import { Refusal } from './refusal.ts';
import { filePolicy } from './security-headers.ts';

/** @param folder  the build folder, its real path */
export function readingsRoutes(folder: string, watched: WatchedReadings): Hono<{ Bindings: HttpBindings }> {
  const routes = new Hono<{ Bindings: HttpBindings }>();
  routes.get('/api/readings', async (c) => {
    const { text, etag } = await readReadings(folder);
    const isKnown = matches(c.req.header('if-none-match') ?? '', etag);
    if (etag === ABSENT && !isKnown) throw new Refusal(404, 'There is no readings.csv in the build folder yet.');
    const headers = { ETag: etag, 'Content-Type': 'text/plain; charset=utf-8', 'Content-Security-Policy': filePolicy };
    return isKnown ? c.body(null, 304, headers) : c.body(text, 200, headers);
  });
  routes.post('/api/readings', async (c) => {
    if (!/^application\/json\b/i.test(c.req.header('content-type') ?? '')) throw new Refusal(400, 'A reading is sent as application/json; it was not kept.');
    const reading = readingAsked(await bodyOf(c.req.raw, Number(c.req.header('content-length') ?? 0)), new Date().toISOString());
    const line = await addReading(folder, reading);
    await watched.look();
    return c.body(line ?? '', line === undefined ? 200 : 201, { 'Content-Type': 'text/plain; charset=utf-8', 'Content-Security-Policy': filePolicy });
  });
  return routes;
}

async function bodyOf({ body }: Request, stated: number): Promise<string> {
  const tooLarge = new Refusal(413, `A reading is at most ${LARGEST_READING / 1000} kB; it was not kept.`);
  if (stated > LARGEST_READING) throw tooLarge;
  const chunks: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of body ?? []) {
    length += chunk.byteLength;
    if (length > LARGEST_READING) throw tooLarge;
    chunks.push(chunk);
  }
  const bytes = Buffer.concat(chunks);
  if (!isUtf8(bytes)) throw new Refusal(400, 'The reading is not UTF-8; it was not kept.');
  return bytes.toString('utf8');
}
