/** Server-sent events: what happens to the file, as long as the page is open. */
import type { Context } from 'hono';
import { streamSSE } from 'hono/streaming';
import type { WatchedReadings } from './readings-watch.ts';
import type { WatchedBuild } from './watched-build.ts';

export interface EventStreams { readonly open: (c: Context) => Response; /** ends all of them */ readonly close: () => void }

/** A line now and then keeps the connection from being taken for dead, and shows the server when a page is gone. [ms] */
const HEARTBEAT = 20_000;

export function eventStreams(build: WatchedBuild, readings: WatchedReadings): EventStreams {
  const ends = new Set<() => void>();
  return {
    open: (c) => streamSSE(c, async (stream) => {
      const tell = (event: string, etag: string): void => void stream.writeSSE({ event, data: JSON.stringify({ etag }) });
      const stop = build.listen(({ event, etag }) => tell(event, etag));
      const stopReadings = readings.listen((etag) => tell('readings', etag));
      const beat = setInterval(() => void stream.write(': still here\n\n'), HEARTBEAT);
      tell('hello', build.version());
      await new Promise<void>((done) => {
        ends.add(done);
        stream.onAbort(done);
      }).finally(() => {
        stop();
        stopReadings();
        clearInterval(beat);
      });
    }),
    close: () => {
      for (const end of ends) end();
      ends.clear();
    },
  };
}
