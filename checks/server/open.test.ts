/** `halfshaft open`: what it prints, how it ends, what it says when it cannot start. */
import { spawn } from 'node:child_process';
import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { createServer, type AddressInfo } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { joinProgram } from './joined-program.ts';
import { askPort, smallApp } from './running-workbench.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-open-'));
const van = join(folder, 'van');
let program: string;
beforeAll(async () => {
  mkdirSync(van);
  writeFileSync(join(folder, 'note.txt'), '');
  const appFolder = smallApp(folder);
  // as cli/halfshaft.ts does with a wrong call
  program = await joinProgram(`
    import { openWorkbench } from './cli/commands/open.ts';
    import { processTerminal } from './cli/process-terminal.ts';
    import { WrongCall } from './cli/wrong-call.ts';
    const [build, options] = process.argv.slice(2);
    openWorkbench(build, JSON.parse(options), processTerminal(process), ${JSON.stringify(appFolder)}).catch((error) => {
      if (!(error instanceof WrongCall)) throw error;
      process.stderr.write(error.message + '\\n');
      process.exitCode = 2;
    });
  `, folder);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function open(build: string, options: object = {}): { readonly address: Promise<string>; readonly end: Promise<{ code: number | null; out: string; error: string }>; readonly signal: (name: NodeJS.Signals) => void } {
  const child = spawn(process.execPath, [program, build, JSON.stringify(options)], { env: { ...process.env, DISPLAY: '', WAYLAND_DISPLAY: '' } });
  let out = '';
  let error = '';
  child.stderr.setEncoding('utf8').on('data', (text: string) => { error += text; });
  const address = new Promise<string>((resolve, reject) => {
    child.stdout.setEncoding('utf8').on('data', (text: string) => {
      out += text;
      const found = /http:\S+/.exec(out)?.[0];
      if (found !== undefined) resolve(found);
    });
    child.once('exit', () => reject(new Error(`ended: ${error}`)));
  });
  address.catch(() => undefined);
  return { address, end: new Promise((resolve) => { child.once('close', (code) => resolve({ code, out, error })); }), signal: (name) => void child.kill(name) };
}

describe('halfshaft open', () => {
  it.each(['SIGINT', 'SIGTERM'] as const)('serves a folder without build.yaml at the address it prints, until %s', async (signal) => {
    const run = open(van);
    const address = new URL(await run.address);
    expect(address.hostname).toBe('127.0.0.1');
    const entered = await askPort(Number(address.port), `/${address.search}`, {});
    expect(entered.status).toBe(303);
    const Cookie = entered.headers['set-cookie']?.[0]?.split(';')[0] as string;
    expect((await askPort(Number(address.port), '/', { headers: { Cookie } })).status).toBe(200);
    expect((await askPort(Number(address.port), '/api/build', { headers: { Cookie } })).headers.etag).toBe('"absent"');
    run.signal(signal);
    const { code, out, error } = await run.end;
    expect([code, error]).toEqual([0, '']);
    expect(out).toContain(`The workbench on ${van} is at`);
    expect(out).toContain('Stop with Ctrl-C');
  });
  it('takes the build.yaml for its folder', async () => {
    const run = open(join(van, 'build.yaml'));
    const address = new URL(await run.address);
    const Cookie = `halfshaft-${address.port}=${address.searchParams.get('token')}`;
    expect((await askPort(Number(address.port), '/api/build', { headers: { Cookie } })).headers['x-build-name']).toBe('van');
    run.signal('SIGINT');
    expect((await run.end).code).toBe(0);
  });
  it('warns when other machines can reach it', async () => {
    const run = open(van, { host: '0.0.0.0' });
    await run.address;
    run.signal('SIGINT');
    expect((await run.end).out).toContain('Other machines on the network can reach it');
  });
  it.each<[string, string, object, RegExp]>([
    ['no folder', join(folder, 'none'), {}, /There is no folder .*none\. Make it first, or start a build with: halfshaft new/],
    ['a file that is no build', join(folder, 'note.txt'), {}, /note\.txt is no folder/],
    ['nothing', ' ', {}, /Name a build folder/],
    ['a port that is no number', van, { port: 'x' }, /--port x: expected a whole number from 0 to 65535/],
    ['a host of another machine', van, { host: '192.0.2.1' }, /192\.0\.2\.1 is no address of this machine/],
  ])('says what is wrong with %s', async (_, build, options, message) => {
    const { code, out, error } = await open(build, options).end;
    expect([code, out]).toEqual([2, '']);
    expect(error).toMatch(message);
    expect(error.trim().split('\n')).toHaveLength(1);
  });
  it('says that a port is taken', async () => {
    const taken = createServer();
    await new Promise<void>((resolve) => { taken.listen(0, '127.0.0.1', resolve); });
    const { port } = taken.address() as AddressInfo;
    const { code, error } = await open(van, { port: String(port) }).end;
    expect(code).toBe(2);
    expect(error).toContain(`Port ${port} is taken`);
    await new Promise((resolve) => { taken.close(resolve); });
  });
});
