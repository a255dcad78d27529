/**
 * kill -9 in the middle of many saves: build.yaml is the version last confirmed or the one that was being saved, whole. And a
 * disk that takes only a part: the file is as it was.
 */
import { spawn, type ChildProcess } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, readdirSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seededRandom } from '../../core/solve/random.ts';
import { joinProgram } from './joined-program.ts';
import { askPort, etagOf, smallApp, type Answer } from './running-workbench.ts';

const folder = mkdtempSync(join(tmpdir(), 'halfshaft-server-killed-'));
const random = seededRandom(20261126);
const version = (number: number): string => `begin ${number}\n${`  line of version ${number}\n`.repeat(500 + (number % 7) * 2_000)}end ${number}\n`;
let program: string;
let appFolder: string;
beforeAll(async () => {
  appFolder = smallApp(folder);
  program = await joinProgram(`
    import { startServer } from './server/start-server.ts';
    const [folder, appFolder] = process.argv.slice(2);
    // a limit of size stands in for a full disk; the signal that goes with it is not a part of that
    process.on('SIGXFSZ', () => undefined);
    startServer({ folder, appFolder, port: 0, token: 'test-token', log: console.error }).then(({ port }) => console.log(port));
  `, folder);
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const portOf = (child: ChildProcess): Promise<number> => new Promise((resolve, reject) => {
  child.stdout?.setEncoding('utf8').once('data', (line: string) => resolve(Number(line)));
  child.once('exit', (code) => reject(new Error(`the server ended with code ${code}`)));
});

const save = (port: number, text: string, before: string): Promise<Answer> => (
  askPort(port, '/api/build', { method: 'PUT', body: text, headers: { Cookie: `halfshaft-${port}=test-token`, Origin: `http://127.0.0.1:${port}`, 'If-Match': etagOf(before) } }));

describe('a server that is killed while it saves', () => {
  it('leaves one whole version, and never an older one than it confirmed', async () => {
    const van = join(folder, 'van');
    mkdirSync(van);
    let number = 0;
    let confirmed = version(0);
    writeFileSync(join(van, 'build.yaml'), confirmed);
    for (let round = 0; round < 8; round++) {
      const child = spawn(process.execPath, [program, van, appFolder], { stdio: ['ignore', 'pipe', 'inherit'] });
      const ended = new Promise((resolve) => { child.once('exit', resolve); });
      const port = await portOf(child);
      let killing: NodeJS.Timeout | undefined;
      let saving = confirmed;
      for (;;) {
        saving = version(++number);
        const answer = await save(port, saving, confirmed).catch(() => undefined);
        if (!answer) break;
        expect(answer.status).toBe(204);
        confirmed = saving;
        killing ??= setTimeout(() => child.kill('SIGKILL'), random() * 300);
      }
      await ended;
      const found = readFileSync(join(van, 'build.yaml'), 'utf8');
      expect([confirmed, saving].includes(found), `round ${round}: ${found.length} characters, begins ${found.slice(0, 12)}`).toBe(true);
      confirmed = found;
    }
    console.log(`killed 8 times in ${number} saves`);
  }, 120_000);
});

describe.skipIf(process.platform === 'win32')('a disk that takes only the first part of a text', () => {
  it('leaves the file as it was, says so, and keeps nothing beside it', async () => {
    const van = join(folder, 'full');
    mkdirSync(van);
    const before = version(0);
    writeFileSync(join(van, 'build.yaml'), before);
    // 100 blocks of 512 bytes: a write beyond is cut short without an error, as on a full disk
    const child = spawn('sh', ['-c', 'ulimit -f 100 && exec "$0" "$@"', process.execPath, program, van, appFolder], { stdio: ['ignore', 'pipe', 'inherit'] });
    const ended = new Promise((resolve) => { child.once('exit', resolve); });
    const port = await portOf(child);
    const answer = await save(port, version(6), before);
    expect([answer.status, answer.text]).toEqual([507, expect.stringMatching(/was not saved, it is as it was before: the disk takes no file of this size/)]);
    expect(readFileSync(join(van, 'build.yaml'), 'utf8')).toBe(before);
    expect(readdirSync(van)).toEqual(['build.yaml']);
    expect((await save(port, 'short\n', before)).status).toBe(204);
    child.kill('SIGKILL');
    await ended;
  });
});
