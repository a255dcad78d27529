/** The one text: versions, saving, two who save at once, and what is refused. */
import { closeSync, mkdirSync, openSync, readFileSync, readdirSync, renameSync, rmSync, symlinkSync, writeFileSync, writeSync } from 'node:fs';
import { request } from 'node:http';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { afterEach, describe, expect, it } from 'vitest';
import { etagOf, runWorkbench, type RunningWorkbench } from './running-workbench.ts';

const text = 'halfshaft: 1\nname: Van # 12.4 kg ±0.1\r\nparts: {}';

let bench: RunningWorkbench;
const start = async (build?: string | Buffer): Promise<RunningWorkbench> => (bench = await runWorkbench(build));
afterEach(async () => {
  expect(bench.log).toEqual([]);
  await bench.stop();
});
const onDisk = (): string => readFileSync(bench.file, 'utf8');

describe('reading', () => {
  it('gives the bytes, their version and the name of the build', async () => {
    await start(text);
    const answer = await bench.ask('/api/build');
    expect(answer.status).toBe(200);
    expect(answer.text).toBe(text);
    expect(answer.headers).toMatchObject({ etag: etagOf(text), 'content-type': 'text/plain; charset=utf-8', 'x-build-name': 'B%C3%A4ckerei%20van' });
  });
  it('gives nothing to those who have it', async () => {
    await start(text);
    for (const known of [etagOf(text), `W/${etagOf(text)}`, `"x", ${etagOf(text)}`]) {
      const answer = await bench.ask('/api/build', { headers: { 'If-None-Match': known } });
      expect([answer.status, answer.text, answer.headers.etag]).toEqual([304, '', etagOf(text)]);
    }
    expect((await bench.ask('/api/build', { headers: { 'If-None-Match': '"x"' } })).status).toBe(200);
  });
  it('keeps a byte order mark', async () => {
    await start('\uFEFFhalfshaft: 1\n');
    expect((await bench.ask('/api/build')).bytes.subarray(0, 3)).toEqual(Buffer.from([0xef, 0xbb, 0xbf]));
  });
});

describe('saving', () => {
  it('writes the text to the byte and names the new version', async () => {
    await start(text);
    const next = '\uFEFFa: 1\r\nb: "ä±²"\n\n# end without line end';
    const answer = await bench.save(next, etagOf(text));
    expect([answer.status, answer.text, answer.headers.etag]).toEqual([204, '', etagOf(next)]);
    expect(onDisk()).toBe(next);
    expect(readdirSync(bench.folder)).toEqual(['build.yaml']);
    expect((await bench.ask('/api/build')).headers.etag).toBe(etagOf(next));
  });
  it('makes the file of a build that has none', async () => {
    await start();
    const before = await bench.ask('/api/build');
    expect([before.status, before.text, before.headers.etag]).toEqual([200, '', '"absent"']);
    expect((await bench.save(text, etagOf(text))).status).toBe(412);
    expect((await bench.save(text, '"absent"')).status).toBe(204);
    expect(onDisk()).toBe(text);
    const late = await bench.save('other', '"absent"');
    expect([late.status, late.text]).toEqual([412, text]);
  });
  it('never writes over another version, and shows it', async () => {
    await start(text);
    writeFileSync(bench.file, 'saved by an editor\n');
    const answer = await bench.save('mine', etagOf(text));
    expect([answer.status, answer.text, answer.headers.etag]).toEqual([412, 'saved by an editor\n', etagOf('saved by an editor\n')]);
    expect(onDisk()).toBe('saved by an editor\n');
  });
  it('shows the whole text of an editor that is still writing it', async () => {
    await start(text);
    const descriptor = openSync(bench.file, 'w');
    const answer = bench.save('mine', etagOf(text));
    await setTimeout(20);
    writeSync(descriptor, 'saved by a slow editor\n');
    closeSync(descriptor);
    expect([(await answer).status, (await answer).text]).toEqual([412, 'saved by a slow editor\n']);
  });
  it('needs to know which version was changed', async () => {
    await start(text);
    const answer = await bench.ask('/api/build', { method: 'PUT', body: 'x', headers: { Origin: bench.origin } });
    expect(answer.status).toBe(428);
    expect((await bench.save('x', '*')).status).toBe(428);
    expect(onDisk()).toBe(text);
  });
  it('lets one of many at once through; the others see its text', async () => {
    await start(text);
    for (let round = 0; round < 5; round++) {
      const { headers: { etag } } = await bench.ask('/api/build');
      const answers = await Promise.all(Array.from({ length: 8 }, (_, index) => bench.save(`round ${round} by ${index}\n`, etag as string)));
      expect(answers.map(({ status }) => status).sort()).toEqual([204, ...Array.from({ length: 7 }, () => 412)]);
      const winner = `round ${round} by ${answers.findIndex(({ status }) => status === 204)}\n`;
      expect(onDisk()).toBe(winner);
      for (const answer of answers) if (answer.status === 412) expect(answer.text).toBe(winner);
    }
  });
  it('refuses what is too large, told beforehand or not', async () => {
    await start(text);
    expect((await bench.save('x'.repeat(4_000_001), etagOf(text))).status).toBe(413);
    const untold = await new Promise<number>((resolve, reject) => {
      const sent = request({ host: '127.0.0.1', port: bench.server.port, path: '/api/build', method: 'PUT', agent: false, headers: { Cookie: `halfshaft-${bench.server.port}=test-token`, Origin: bench.origin, 'If-Match': etagOf(text), 'Transfer-Encoding': 'chunked' } }, (answer) => {
        answer.resume();
        resolve(answer.statusCode ?? 0);
      });
      sent.on('error', reject);
      for (let part = 0; part < 5; part++) sent.write('x'.repeat(1_000_000));
      sent.end();
    });
    expect(untold).toBe(413);
    expect(onDisk()).toBe(text);
    const largest = 'x'.repeat(4_000_000);
    expect((await bench.save(largest, etagOf(text))).status).toBe(204);
    expect(onDisk()).toBe(largest);
  });
  it('refuses what is no text', async () => {
    await start(text);
    expect((await bench.save(Buffer.from([0x61, 0xff, 0xfe]), etagOf(text))).status).toBe(400);
    expect(onDisk()).toBe(text);
  });
  it('knows no other way to change the file', async () => {
    await start(text);
    for (const method of ['POST', 'DELETE', 'PATCH']) expect((await bench.ask('/api/build', { method, headers: { Origin: bench.origin } })).status).toBe(405);
    for (const path of ['/files/build.yaml', '/api/readings', '/']) expect((await bench.ask(path, { method: 'PUT', body: 'x', headers: { Origin: bench.origin } })).status).toBe(404);
    expect(onDisk()).toBe(text);
  });
});

describe('a file that cannot be worked on', () => {
  const refused = async (why: RegExp): Promise<void> => {
    for (const answer of [await bench.ask('/api/build'), await bench.save('x', etagOf(text)), await bench.save('x', '"absent"')]) {
      expect(answer.status).toBe(409);
      expect(answer.text).toMatch(why);
    }
  };
  it('is a link out of the folder, to something or to nothing', async () => {
    await start();
    const outside = join(bench.folder, '../outside.yaml');
    symlinkSync(outside, bench.file);
    await refused(/link that leads out of its folder, to nothing/);
    writeFileSync(outside, text);
    await refused(/link that leads out of its folder to .*outside\.yaml/);
    expect(readFileSync(outside, 'utf8')).toBe(text);
  });
  it('is not a link inside the folder', async () => {
    await start();
    writeFileSync(join(bench.folder, 'van.yaml'), text);
    symlinkSync('van.yaml', bench.file);
    expect((await bench.save('x', etagOf(text))).status).toBe(204);
    expect(readFileSync(join(bench.folder, 'van.yaml'), 'utf8')).toBe('x');
  });
  it('is a folder', async () => {
    await start();
    mkdirSync(bench.file);
    await refused(/is no file/);
  });
  it('is too large', async () => {
    await start('x'.repeat(4_000_001));
    await refused(/text of at most 4 MB/);
  });
  it('is not UTF-8', async () => {
    await start(Buffer.from([0x61, 0xe4, 0x0a]));
    await refused(/not UTF-8/);
    expect([...readFileSync(bench.file)]).toEqual([0x61, 0xe4, 0x0a]);
  });
  it('stands in a folder that is gone', async () => {
    await start();
    const gone = `${bench.folder} away`;
    renameSync(bench.folder, gone);
    const answer = await bench.save('x', '"absent"');
    expect([answer.status, answer.text]).toEqual([500, expect.stringMatching(/was not saved.*the build folder is gone/)]);
    rmSync(gone, { recursive: true });
  });
});
