/** A server on a folder of its own with a small app, and plain requests to it: nothing is tidied up on the way. */
import { createHash } from 'node:crypto';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { request, type IncomingHttpHeaders, type IncomingMessage } from 'node:http';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { StudyMaker } from '../../server/study-maker.ts';
import { startServer, type RunningServer } from '../../server/start-server.ts';

export interface Answer { readonly status: number; readonly headers: IncomingHttpHeaders; readonly bytes: Buffer; readonly text: string }
export interface Asked { readonly method?: string; readonly headers?: Readonly<Record<string, string>>; readonly body?: string | Buffer; /** the cookie of this server goes along, unless false */ readonly known?: boolean }
export interface Told { readonly event: string; readonly etag: string }

export const script = `console.log(${JSON.stringify('workbench '.repeat(400))});\n`;

export interface RunningWorkbench {
  readonly folder: string; readonly file: string; readonly server: RunningServer; readonly origin: string; readonly log: readonly string[];
  readonly ask: (path: string, asked?: Asked) => Promise<Answer>;
  readonly save: (text: string | Buffer, ifMatch: string) => Promise<Answer>;
  /** the events of one page, each taken once */ readonly events: () => Promise<{ readonly next: () => Promise<Told>; readonly leave: () => void }>;
  readonly stop: () => Promise<void>;
}

/** @param build  the text of build.yaml; without it there is none yet */
export async function runWorkbench(build?: string | Buffer, studies?: StudyMaker): Promise<RunningWorkbench> {
  const root = mkdtempSync(join(tmpdir(), 'halfshaft-server-'));
  const folder = join(root, 'Bäckerei van');
  const appFolder = smallApp(root);
  mkdirSync(folder);
  const file = join(folder, 'build.yaml');
  if (build !== undefined) writeFileSync(file, build);
  const log: string[] = [];
  const server = await startServer({ folder, appFolder, port: 0, token: 'test-token', studies, log: (line) => log.push(line) });
  const origin = `http://127.0.0.1:${server.port}`;
  const headersOf = ({ headers = {}, known = true }: Asked): Record<string, string> => ({ ...(known ? { Cookie: `halfshaft-${server.port}=test-token` } : {}), ...headers });
  const ask = (path: string, asked: Asked = {}): Promise<Answer> => askPort(server.port, path, { ...asked, headers: headersOf(asked) });
  return {
    folder, file, server, origin, log, ask,
    save: (text, ifMatch) => ask('/api/build', { method: 'PUT', body: text, headers: { Origin: origin, 'If-Match': ifMatch } }),
    events: () => eventsOf(server.port, headersOf({})),
    stop: async () => {
      await server.close();
      rmSync(root, { recursive: true, force: true });
    },
  };
}

/** The version of a text as docs/server.md says it, worked out here. */
export const etagOf = (text: string): string => `"${createHash('sha256').update(text).digest('hex')}"`;

/** A folder as vite writes it. */
export function smallApp(root: string): string {
  const folder = join(root, 'web');
  mkdirSync(join(folder, 'assets'), { recursive: true });
  writeFileSync(join(folder, 'index.html'), '<!doctype html><meta name="csp-nonce" content="__NONCE__"><script type="module" src="/assets/index-Ab12Cd34.js"></script>');
  writeFileSync(join(folder, 'assets/index-Ab12Cd34.js'), script);
  writeFileSync(join(folder, 'mark.svg'), '<svg xmlns="http://www.w3.org/2000/svg"/>');
  return folder;
}

export function askPort(port: number, path: string, { method = 'GET', headers = {}, body }: Asked): Promise<Answer> {
  return new Promise((resolve, reject) => {
    const sent = request({ host: '127.0.0.1', port, path, method, headers, agent: false }, (incoming) => {
      const chunks: Buffer[] = [];
      incoming.on('data', (chunk: Buffer) => chunks.push(chunk)).on('error', reject).on('end', () => {
        const bytes = Buffer.concat(chunks);
        resolve({ status: incoming.statusCode ?? 0, headers: incoming.headers, bytes, text: bytes.toString('utf8') });
      });
    });
    sent.on('error', reject);
    sent.end(body);
  });
}

async function eventsOf(port: number, headers: Record<string, string>): Promise<{ next: () => Promise<Told>; leave: () => void }> {
  const sent = request({ host: '127.0.0.1', port, path: '/api/events', headers, agent: false });
  sent.end();
  const incoming = await new Promise<IncomingMessage>((resolve, reject) => sent.on('response', resolve).on('error', reject));
  if (incoming.statusCode !== 200) throw new Error(`events: ${incoming.statusCode}`);
  const waiting: ((told: Told) => void)[] = [];
  const told: Told[] = [];
  let rest = '';
  incoming.setEncoding('utf8').on('error', () => undefined).on('data', (chunk: string) => {
    const blocks = (rest + chunk).split('\n\n');
    rest = blocks.pop() as string;
    for (const block of blocks) {
      const [, event, data] = /^event: (\w+)\ndata: (.*)$/.exec(block) ?? [];
      if (event === undefined) continue;
      const one = { event, etag: (JSON.parse(data as string) as { etag: string }).etag };
      const taker = waiting.shift();
      if (taker) taker(one);
      else told.push(one);
    }
  });
  return {
    next: () => {
      const one = told.shift();
      return one ? Promise.resolve(one) : new Promise((resolve) => { waiting.push(resolve); });
    },
    leave: () => sent.destroy(),
  };
}
