/**
 * The builder's readings on disk: whoever adds at the same time, whatever kills a program while it adds, no reading that was said to be kept
 * is lost, and the file stays readable.
 */
import { spawn } from 'node:child_process';
import { appendFileSync, mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, truncateSync, writeFileSync, existsSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { readLog } from '../../core/readings/log.ts';
import type { Reading } from '../../core/readings/reading.ts';
import { seededRandom } from '../../core/solve/random.ts';
import { addReading } from '../../server/readings-on-disk.ts';
import { joinProgram } from './joined-program.ts';
import { runWorkbench, type RunningWorkbench } from './running-workbench.ts';

const root = mkdtempSync(join(tmpdir(), 'halfshaft-readings-'));
const random = seededRandom(20261125);
afterAll(() => rmSync(root, { recursive: true, force: true }));
const reading = (id: string, note = 'steady, "quiet"'): Reading => ({
  id, when: '2026-11-25T14:30:00Z', who: 'Ada', procedure: 'power-up', step: 'join.H06', state: 'off', points: ['SD.out', 'M5.neg'], quantity: 'voltage', reading: '10.8 V',
  instrument: 'multimeter', verdict: 'agrees', revision: '1a2b3c4d', restsOn: '', replaces: '', note, more: [],
});
const folderOf = (name: string): string => { const folder = join(root, name); mkdirSync(folder); return folder; };
const logOf = (folder: string): ReturnType<typeof readLog> => readLog(readFileSync(join(folder, 'readings.csv'), 'utf8'));

describe('programs that add readings', () => {
  let program: string;
  beforeAll(async () => {
    program = await joinProgram(`
      import { addReading } from './server/readings-on-disk.ts';
      const [folder, name, count, first = '0'] = process.argv.slice(2);
      const run = async () => {
        for (let number = Number(first); number < Number(count); number++) {
          await addReading(folder, { ...${JSON.stringify(reading('x'))}, id: name + '-' + number, note: 'a note, "quoted" '.repeat(1 + number % 5) });
          process.stdout.write(name + '-' + number + '\\n');
        }
      };
      run();
    `, root);
  });
  const noteOf = (number: number): string => 'a note, "quoted" '.repeat(1 + number % 5).trim();
  const started = (folder: string, name: string, count: number, first = 0): { readonly child: ReturnType<typeof spawn>; readonly kept: Promise<readonly string[]> } => {
    const child = spawn(process.execPath, [program, folder, name, String(count), String(first)], { stdio: ['ignore', 'pipe', 'inherit'] });
    let said = '';
    child.stdout!.setEncoding('utf8').on('data', (text: string) => { said += text; });
    return { child, kept: new Promise((resolve) => { child.once('close', () => resolve(said.split('\n').slice(0, -1))); }) };
  };

  it('killed again and again until all of 1,000 are kept: each is there, once and whole, and no half line counts', async () => {
    const folder = folderOf('killed');
    const file = join(folder, 'readings.csv');
    const count = 1000;
    const kept = new Set<string>();
    let [rounds, kills, cuts] = [0, 0, 0];
    while (kept.size < count && rounds < 400) {
      rounds++;
      // what was not said to be kept is added again, as somebody would who saw no answer
      const run = started(folder, 'r', count, kept.size);
      let isOver = false;
      const over = run.kept.then((said) => { isOver = true; return said; });
      await Promise.race([over, new Promise((resolve) => { run.child.stdout!.once('data', resolve); })]);
      setTimeout(() => { if (!isOver) { kills++; run.child.kill('SIGKILL'); } }, random() * 1500);
      for (const id of await over) {
        expect(kept.has(id), id).toBe(false);
        kept.add(id);
      }
      expect(logOf(folder).readings.filter(({ id }) => kept.has(id)).length).toBe(kept.size);
      // a kill seldom falls between two bytes: what a power cut leaves of the last line is made here
      if (rounds % 3 === 1 && kept.size < count) { appendFileSync(file, `r-${kept.size},2026-11-25T14:30:00Z,Ada,power-up,join.H06,off,"SD.o`); cuts++; }
    }
    const { readings, problems } = logOf(folder);
    expect(readings.map(({ id }) => id)).toEqual(Array.from({ length: count }, (_, number) => `r-${number}`));
    expect(readings).toEqual(Array.from({ length: count }, (_, number) => ({ ...reading(`r-${number}`), note: noteOf(number) })));
    expect(problems.length).toBe(cuts);
    expect(kills).toBeGreaterThan(0);
    console.log(`${count} readings, killed ${kills} times, ${cuts} lines cut: ${readings.length} are there, all that were said to be kept; ${problems.length} half lines told and left out`);
  }, 120_000);

  it('two at the same time never mix their lines', async () => {
    const folder = folderOf('together');
    const [a, b] = await Promise.all([started(folder, 'a', 150).kept, started(folder, 'b', 150).kept]);
    const { readings, problems } = logOf(folder);
    expect(problems).toEqual([]);
    expect(readings.map(({ id }) => id).sort()).toEqual([...a, ...b].sort());
    expect(readings.length).toBe(300);
  }, 60_000);
});

describe('a line added', () => {
  it('closes what a crash has left open, in the middle of quotes too, and follows the columns of the file', async () => {
    const folder = folderOf('cut');
    const file = join(folder, 'readings.csv');
    writeFileSync(file, 'note,weather,id,when,quantity,reading\r\n"steady, ""qui');
    await addReading(folder, reading('r1'));
    await addReading(folder, reading('r2', 'two\nlines'.replace('\n', ' ')));
    expect(logOf(folder)).toMatchObject({ readings: [{ id: 'r1', points: ['SD.out', 'M5.neg'] }, { id: 'r2', note: 'two lines' }], problems: [{ line: 2 }] });
    truncateSync(file, readFileSync(file).length - 4);
    await addReading(folder, reading('r3'));
    expect(logOf(folder).readings.map(({ id }) => id)).toEqual(['r1', 'r2', 'r3']);
  });
  it('is refused where readings.csv is a link or a folder, and where it corrects nothing', async () => {
    const folder = folderOf('refused');
    symlinkSync(join(root, 'elsewhere.csv'), join(folder, 'readings.csv'));
    await expect(addReading(folder, reading('r1'))).rejects.toMatchObject({ status: 409, message: expect.stringContaining('is a link') });
    expect(existsSync(join(root, 'elsewhere.csv'))).toBe(false);
    rmSync(join(folder, 'readings.csv'));
    mkdirSync(join(folder, 'readings.csv'));
    await expect(addReading(folder, reading('r1'))).rejects.toMatchObject({ status: 409 });
    rmSync(join(folder, 'readings.csv'), { recursive: true });
    await expect(addReading(folder, { ...reading('r1'), replaces: 'nobody' })).rejects.toMatchObject({ status: 409, message: expect.stringContaining('nobody') });
  });
});

describe('the page and the readings', () => {
  let bench: RunningWorkbench;
  beforeEach(async () => { bench = await runWorkbench('name: Van\n'); });
  afterEach(() => bench.stop());
  const cells = { id: 'p1', who: 'Ada', procedure: 'power-up', step: 'join.H06', points: 'SD.out M5.neg', quantity: 'voltage', reading: '10.8 V', verdict: 'agrees', note: 'two\nlines' };
  const post = (body: unknown, headers: Record<string, string> = {}): ReturnType<RunningWorkbench['ask']> => bench.ask('/api/readings', { method: 'POST', body: typeof body === 'string' ? body : JSON.stringify(body), headers: { Origin: bench.origin, 'Content-Type': 'application/json', ...headers } });

  it('adds one, with the time of the server; the same again adds nothing; another under its id is refused', async () => {
    expect((await post(cells)).status).toBe(201);
    expect((await post(cells)).status).toBe(200);
    expect((await post({ ...cells, reading: '11 V' })).status).toBe(409);
    const answer = await bench.ask('/api/readings');
    expect(answer.headers['etag']).toMatch(/^"[0-9a-f]{64}"$/);
    const { readings, problems } = readLog(answer.text);
    expect(problems).toEqual([]);
    expect(readings).toMatchObject([{ id: 'p1', note: 'two lines', points: ['SD.out', 'M5.neg'] }]);
    expect(Math.abs(Date.parse(readings[0]!.when) - Date.now())).toBeLessThan(60_000);
    expect((await bench.ask('/api/readings', { headers: { 'If-None-Match': answer.headers['etag'] as string } })).status).toBe(304);
  });
  it('tells every page when the file changes, by this program or another', async () => {
    const events = await bench.events();
    await events.next();
    await post(cells);
    expect((await events.next()).event).toBe('readings');
    await addReading(bench.folder, reading('other'));
    expect((await events.next()).event).toBe('readings');
    events.leave();
  });
  it('takes nothing from another page, without the token, too large, or that is no reading', async () => {
    expect((await bench.ask('/api/readings', { method: 'POST', body: '{}' })).status).toBe(403);
    expect((await post(cells, { Origin: 'http://evil.example' })).status).toBe(403);
    expect((await bench.ask('/api/readings', { method: 'POST', body: JSON.stringify(cells), headers: { Origin: bench.origin }, known: false })).status).toBe(401);
    expect((await post(cells, { 'Content-Type': 'text/plain' })).status).toBe(400);
    expect((await post({ ...cells, note: 'x'.repeat(40_000) })).status).toBe(413);
    for (const wrong of ['no json', '[]', 'null', { ...cells, id: '../x' }, { ...cells, when: '2020-01-01T00:00Z' }, { ...cells, verdict: 'fine' }, { ...cells, note: 7 }, { ...cells, reading: ' ' }, { ...cells, more: 'x' }]) {
      expect((await post(wrong)).status).toBe(400);
    }
    expect((await bench.ask('/api/readings')).status).toBe(404);
    expect((await bench.ask('/api/readings', { headers: { 'If-None-Match': '"absent"' } })).status).toBe(304);
  });
});
