/** Files of the build folder: those, and no others, and nothing that runs. */
import { execFileSync } from 'node:child_process';
import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { runWorkbench, type RunningWorkbench } from './running-workbench.ts';

let bench: RunningWorkbench;
beforeAll(async () => {
  bench = await runWorkbench('halfshaft: 1\n');
  const at = (path: string): string => join(bench.folder, path);
  mkdirSync(at('photos/.thumbs'), { recursive: true });
  mkdirSync(at('.git'));
  mkdirSync(join(bench.folder, '../Bäckerei van 2'));
  for (const secret of ['../secret.txt', '../Bäckerei van 2/secret.txt', '.env', '.git/config', 'photos/.thumbs/a.txt']) writeFileSync(at(secret), 'secret');
  writeFileSync(at('photos/front axle ä.jpg'), 'jpeg');
  writeFileSync(at('mark.svg'), '<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>');
  writeFileSync(at('page.HTML'), '<script>alert(1)</script>');
  writeFileSync(at('unit.stl'), 'solid');
  writeFileSync(at('100%.txt'), 'full');
  symlinkSync('../secret.txt', at('out.txt'));
  symlinkSync('..', at('out'));
  symlinkSync('.env', at('env.txt'));
  symlinkSync('unit.stl', at('same.stl'));
});
afterAll(async () => {
  expect(bench.log).toEqual([]);
  await bench.stop();
});

describe('a file of the folder', () => {
  it('comes with a type that cannot run, and a policy under which nothing runs', async () => {
    const of = async (path: string): Promise<unknown[]> => {
      const { status, headers, text } = await bench.ask(`/files/${path}`);
      expect(headers['content-security-policy']).toMatch(/default-src 'none'.*sandbox/);
      return [status, headers['content-type'], headers['content-disposition'], text];
    };
    expect(await of('photos/front%20axle%20%C3%A4.jpg')).toEqual([200, 'image/jpeg', undefined, 'jpeg']);
    expect((await of('mark.svg')).slice(0, 3)).toEqual([200, 'text/plain; charset=utf-8', undefined]);
    expect((await of('page.HTML')).slice(0, 3)).toEqual([200, 'text/plain; charset=utf-8', undefined]);
    expect(await of('unit.stl')).toEqual([200, 'application/octet-stream', 'attachment', 'solid']);
    expect(await of('same.stl')).toEqual([200, 'application/octet-stream', 'attachment', 'solid']);
    expect(await of('100%25.txt?size=1')).toEqual([200, 'text/plain; charset=utf-8', undefined, 'full']);
  });
  it('is readings.csv, once there is one', async () => {
    expect((await bench.ask('/api/readings')).status).toBe(404);
    writeFileSync(join(bench.folder, 'readings.csv'), 'between,value\r\n');
    const answer = await bench.ask('/api/readings');
    expect([answer.status, answer.headers['content-type'], answer.text]).toEqual([200, 'text/plain; charset=utf-8', 'between,value\r\n']);
  });
});

describe('nothing else', () => {
  const ups = ['..', '%2e%2e', '%2E.', '.%2e', '%252e%252e', '..%00', '%c0%ae%c0%ae', '%u002e%u002e', '．．', '..;', '.', '%2e', ''];
  const ways = ups.flatMap((up) => [
    `/files/${up}/secret.txt`, `/files/${up}%2fsecret.txt`, `/files/${up}%5csecret.txt`, `/files/${up}\\secret.txt`, `/files/${up}%252fsecret.txt`,
    `/files/photos/${up}/${up}/secret.txt`, `/files//${up}/secret.txt`, `/files/${up}/B%C3%A4ckerei%20van%202/secret.txt`, `/files/photos/${up}/../../secret.txt`,
  ]).map((way) => way.replace(/[^\0-\x7f]/g, encodeURIComponent));
  it.each([
    ...new Set(ways), '/files/../secret.txt', '/files/C:/secret.txt', '/files//etc/passwd', '/files/%2fetc%2fpasswd', '/files/file:///etc/passwd', '/filesx/../secret.txt', '/%66iles/../secret.txt',
    '/files/out.txt', '/files/out/secret.txt', '/files/.env', '/files/%2eenv', '/files/env.txt', '/files/.git/config', '/files/photos/.thumbs/a.txt', '/files/build.yaml/', '/files/build.yaml%00.txt', '/files/photos', '/files/', '/files', '/files/%', '/files/100%.txt', '/files/build.yaml::$DATA',
  ])('comes from %s', async (path) => {
    const answer = await bench.ask(path);
    expect([400, 404]).toContain(answer.status);
    expect(answer.text).not.toContain('secret');
  });
  it.skipIf(process.platform === 'win32')('comes from a pipe, which does not hold up the server', async () => {
    execFileSync('mkfifo', [join(bench.folder, 'pipe.txt')]);
    expect((await bench.ask('/files/pipe.txt')).status).toBe(404);
  });
});
