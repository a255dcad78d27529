/** The first study of a page, from the program that serves it. */
import { afterEach, describe, expect, it } from 'vitest';
import type { StudyMaker } from '../../server/study-maker.ts';
import { runWorkbench } from './running-workbench.ts';
import type { Answer, RunningWorkbench } from './running-workbench.ts';

const text = 'halfshaft: 1\nname: x\n';

describe('a study by the server', () => {
  let workbench: RunningWorkbench | undefined;
  afterEach(async () => { await workbench?.stop(); workbench = undefined; });
  const run = async (studies?: StudyMaker, of = text): Promise<RunningWorkbench> => (workbench = await runWorkbench(of, studies));
  const ask = (body: string, headers: Record<string, string> = {}): Promise<Answer> => workbench!.ask('/api/study', { method: 'POST', body, headers: { Origin: workbench!.origin, ...headers } });

  it('begins with the file when the server starts, says that it can be had, and is handed on as it is', async () => {
    const begun: string[] = [];
    await run({ begin: (of) => { begun.push(of); }, of: async (asked) => `made of ${asked}` });
    expect((await workbench!.ask('/api/build')).headers['x-studies']).toBe('yes');
    expect(await ask('{"text":"ü"}')).toMatchObject({ status: 200, text: 'made of {"text":"ü"}' });
    expect(begun).toEqual([text]);
  });
  it('of a very long text is left to the page', async () => {
    const begun: string[] = [];
    await run({ begin: (of) => { begun.push(of); }, of: async () => 'made' }, `${text}${'# long\n'.repeat(15_000)}`);
    expect((await workbench!.ask('/api/build')).headers['x-studies']).toBeUndefined();
    expect(begun).toEqual([]);
  });
  it('is for the workbench only, and of no more than a build file', async () => {
    await run({ begin: () => undefined, of: async () => 'made' });
    expect((await ask('{}', { Origin: 'http://elsewhere.example' })).status).toBe(403);
    expect((await workbench!.ask('/api/study', { method: 'POST', body: '{}', headers: { Origin: workbench!.origin }, known: false })).status).toBe(401);
    expect((await ask('x'.repeat(4_100_000))).status).toBe(413);
  });
  it('that cannot be made is refused in words; the server goes on', async () => {
    await run({ begin: () => { throw new Error('not now'); }, of: async () => { throw new Error('it has no text'); } });
    expect(await ask('{}')).toMatchObject({ status: 400, text: 'No study can be made of that: it has no text.\n' });
    expect((await workbench!.ask('/api/build')).status).toBe(200);
    expect(workbench!.log).toEqual([]);
  });
  it('is not there without anybody who makes it', async () => {
    await run();
    expect((await workbench!.ask('/api/build')).headers['x-studies']).toBeUndefined();
    expect((await ask('{}')).status).toBe(404);
  });
});
