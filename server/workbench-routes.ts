/** What the server answers to which address. docs/server.md says it for people. */
import { isUtf8 } from 'node:buffer';
import { randomBytes } from 'node:crypto';
import type { HttpBindings } from '@hono/node-server';
import { Hono, type Context } from 'hono';
import { takesGzip, type AppFiles } from './app-files.ts';
import { matches, type Version } from './build-on-disk.ts';
import type { EventStreams } from './event-stream.ts';
import { openFolderFile, type FolderFile } from './folder-files.ts';
import { LARGEST_BUILD } from './largest-build.ts';
import { readingsRoutes } from './readings-routes.ts';
import type { WatchedReadings } from './readings-watch.ts';
import { Refusal } from './refusal.ts';
import { LONGEST_HELPED } from './study-maker.ts';
import type { StudyMaker } from './study-maker.ts';
import { contentPolicy, filePolicy, withSecurityHeaders } from './security-headers.ts';
import type { WatchedBuild } from './watched-build.ts';
import { whoMayEnter } from './who-may-enter.ts';
import { whyNot } from './why-not.ts';

export interface Workbench {
  /** the build folder, its real path */ readonly folder: string;
  readonly name: string;
  readonly build: WatchedBuild; readonly readings: WatchedReadings; readonly events: EventStreams; readonly app: AppFiles; readonly studies: StudyMaker | undefined;
  /** names and port of the server itself */ readonly names: ReadonlySet<string>; readonly port: number;
  readonly token: string; readonly log: (line: string) => void;
}

type Env = { Bindings: HttpBindings };

export function workbenchRoutes({ folder, name, build, readings, events, app, studies, names, port, token, log }: Workbench): Hono<Env> {
  const routes = new Hono<Env>();
  routes.use(async (c, next) => {
    await next();
    withSecurityHeaders(c.res.headers);
  });
  routes.use(whoMayEnter(names, port, token));

  routes.get('/api/build', async (c) => {
    const now = await build.disk.read();
    c.header('X-Build-Name', encodeURIComponent(name));
    if (studies && now.bytes.length <= LONGEST_HELPED) c.header('X-Studies', 'yes');
    if (matches(c.req.header('if-none-match') ?? '', now.etag)) return c.body(null, 304, { ETag: now.etag });
    return versionAnswer(c, now, 200);
  });
  routes.put('/api/build', async (c) => {
    const ifMatch = c.req.header('if-match');
    // `*` would write over whatever somebody else has saved meanwhile
    if (ifMatch === undefined || ifMatch.trim() === '*') throw new Refusal(428, 'Say in If-Match which version of the build was changed.');
    const { saved, now } = await build.disk.save(await textOf(c, 'it was not saved'), ifMatch);
    return saved ? c.body(null, 204, { ETag: now.etag }) : versionAnswer(c, now, 412);
  });
  routes.all('/api/build', () => { throw new Refusal(405, 'The build can be read (GET) and saved (PUT).'); });
  routes.post('/api/study', async (c) => {
    if (!studies) throw new Refusal(404, 'This server makes no studies; the page does.');
    const asked = await textOf(c, 'nothing was made of it');
    const study = await studies.of(asked.toString()).catch((error: unknown) => { throw new Refusal(400, `No study can be made of that: ${whyNot(error)}.`); });
    return c.body(study, 200, { 'Content-Type': 'text/plain; charset=utf-8' });
  });
  routes.get('/api/events', (c) => events.open(c));
  routes.route('/', readingsRoutes(folder, readings));
  routes.get('/files/*', async (c) => {
    // the address as it was sent: nothing has been decoded or tidied up yet
    const path = /^\/files\/([^?#]*)/.exec(c.env.incoming.url ?? '')?.[1];
    const file = path === undefined ? undefined : await openFolderFile(folder, path);
    if (!file) throw new Refusal(404, 'There is no such file in the build folder.');
    return fileAnswer(c, file);
  });
  routes.get('/', async (c) => {
    const nonce = randomBytes(18).toString('base64url');
    return c.html(await app.index(nonce), 200, { 'Content-Security-Policy': contentPolicy(nonce) });
  });
  routes.get('*', async (c) => {
    const file = c.req.path.startsWith('/api/') ? undefined : await app.file(c.req.path.slice(1));
    if (!file) return c.notFound();
    const zipped = takesGzip(c.req.header('accept-encoding')) ? file.zipped : undefined;
    return c.body(new Uint8Array(zipped ?? file.bytes), 200, {
      'Content-Type': file.type, 'Content-Length': String((zipped ?? file.bytes).length),
      ...(file.zipped ? { Vary: 'Accept-Encoding' } : {}), ...(zipped ? { 'Content-Encoding': 'gzip' } : {}),
      ...(file.isHashed ? { 'Cache-Control': 'public, max-age=31536000, immutable' } : {}),
    });
  });

  routes.notFound((c) => c.text('There is nothing at this address.\n', 404));
  routes.onError((error, c) => {
    if (error instanceof Refusal) return c.text(`${error.message}\n`, error.status);
    log(`A request went wrong: ${c.req.method} ${c.req.path}: ${error.stack ?? error.message}`);
    return c.text('The server of the workbench has a fault; the terminal shows which.\n', 500);
  });
  return routes;
}

function versionAnswer(c: Context<Env>, { bytes, etag }: Version, status: 200 | 412): Response {
  return c.body(new Uint8Array(bytes), status, { 'Content-Type': 'text/plain; charset=utf-8', ETag: etag });
}

function fileAnswer(c: Context<Env>, { body, size, type, shown }: FolderFile): Response {
  return c.body(body, 200, { 'Content-Type': type, 'Content-Length': String(size), 'Content-Security-Policy': filePolicy, ...(shown ? {} : { 'Content-Disposition': 'attachment' }) });
}

/**
 * The body of a save, or of what a study is asked of: UTF-8 text that is not too large. It is left alone as soon as it is.
 * @param so  what then becomes of it, for the refusal
 */
async function textOf(c: Context<Env>, so: string): Promise<Buffer> {
  const tooLarge = new Refusal(413, `A build file is text of at most ${LARGEST_BUILD / 1e6} MB; this one is larger, so ${so}.`);
  if (Number(c.req.header('content-length') ?? 0) > LARGEST_BUILD) throw tooLarge;
  const chunks: Uint8Array[] = [];
  let length = 0;
  for await (const chunk of c.req.raw.body ?? []) {
    length += chunk.byteLength;
    if (length > LARGEST_BUILD) throw tooLarge;
    chunks.push(chunk);
  }
  const bytes = Buffer.concat(chunks);
  if (!isUtf8(bytes)) throw new Refusal(400, `The text is not UTF-8, so ${so}.`);
  return bytes;
}
