/** What a page is told when the file changes on disk, by whatever program. */
import { appendFileSync, closeSync, openSync, renameSync, unlinkSync, writeFileSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { afterEach, describe, expect, it } from 'vitest';
import { etagOf, runWorkbench, type RunningWorkbench } from './running-workbench.ts';

let bench: RunningWorkbench;
const start = async (build?: string): Promise<Awaited<ReturnType<RunningWorkbench['events']>>> => {
  bench = await runWorkbench(build);
  return bench.events();
};
afterEach(async () => {
  expect(bench.log).toEqual([]);
  await bench.stop();
});

describe('a page', () => {
  it('is greeted with the version on disk', async () => {
    const events = await start('one\n');
    expect(await events.next()).toEqual({ event: 'hello', etag: etagOf('one\n') });
  });
  it('is told of a save in place, once the text is whole', async () => {
    const events = await start('one\n');
    await events.next();
    const descriptor = openSync(bench.file, 'w');
    writeSync(descriptor, 'two\n');
    writeSync(descriptor, 'three\n');
    closeSync(descriptor);
    expect(await events.next()).toEqual({ event: 'changed', etag: etagOf('two\nthree\n') });
  });
  it('is told of saves by renaming, one after the other', async () => {
    const events = await start('one\n');
    await events.next();
    for (const text of ['two\n', 'three\n', 'four\n']) {
      // as editors do: the old file is kept under another name
      writeFileSync(join(bench.folder, '.build.yaml.swp'), text);
      renameSync(bench.file, `${bench.file}~`);
      renameSync(join(bench.folder, '.build.yaml.swp'), bench.file);
      expect(await events.next()).toEqual({ event: 'changed', etag: etagOf(text) });
    }
    appendFileSync(bench.file, 'five\n');
    expect(await events.next()).toEqual({ event: 'changed', etag: etagOf('four\nfive\n') });
  });
  it('is told of its own saves and those of other pages', async () => {
    const one = await start('one\n');
    const two = await bench.events();
    await Promise.all([one.next(), two.next()]);
    expect((await bench.save('two\n', etagOf('one\n'))).status).toBe(204);
    for (const events of [one, two]) expect(await events.next()).toEqual({ event: 'changed', etag: etagOf('two\n') });
  });
  it('is told when the file goes and when it comes again', async () => {
    const events = await start('one\n');
    await events.next();
    unlinkSync(bench.file);
    expect(await events.next()).toEqual({ event: 'gone', etag: '"absent"' });
    writeFileSync(bench.file, 'one\n');
    expect(await events.next()).toEqual({ event: 'changed', etag: etagOf('one\n') });
  });
  it('is told when a build gets its file', async () => {
    const events = await start();
    expect(await events.next()).toEqual({ event: 'hello', etag: '"absent"' });
    writeFileSync(bench.file, 'one\n');
    expect(await events.next()).toEqual({ event: 'changed', etag: etagOf('one\n') });
  });
  it('is not told of a save that changes nothing, nor of other files', async () => {
    const events = await start('one\n');
    await events.next();
    writeFileSync(bench.file, 'one\n');
    writeFileSync(join(bench.folder, 'notes.txt'), 'x\n');
    await bench.ask('/api/build');
    writeFileSync(bench.file, 'two\n');
    expect(await events.next()).toEqual({ event: 'changed', etag: etagOf('two\n') });
  });
  it('is told that the file cannot be shown any more, and that it can again', async () => {
    const events = await start('one\n');
    await events.next();
    writeFileSync(bench.file, Buffer.from([0xff]));
    expect(await events.next()).toEqual({ event: 'changed', etag: '"unreadable"' });
    writeFileSync(bench.file, 'one\n');
    expect(await events.next()).toEqual({ event: 'changed', etag: etagOf('one\n') });
  });
  it('that leaves or is cut off does not hold the server up', async () => {
    const one = await start('one\n');
    const two = await bench.events();
    await Promise.all([one.next(), two.next()]);
    one.leave();
    expect((await bench.save('two\n', etagOf('one\n'))).status).toBe(204);
    expect(await two.next()).toEqual({ event: 'changed', etag: etagOf('two\n') });
    // two is still open when afterEach closes the server
  });
});
