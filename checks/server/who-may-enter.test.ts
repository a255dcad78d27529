/** Who is let in: token, cookie, Host, Origin; and what every answer tells the browser. */
import { connect } from 'node:net';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { newToken, ownNames } from '../../server/who-may-enter.ts';
import { runWorkbench, script, type RunningWorkbench } from './running-workbench.ts';

let bench: RunningWorkbench;
beforeAll(async () => { bench = await runWorkbench('halfshaft: 1\n'); });
afterAll(async () => {
  expect(bench.log).toEqual([]);
  await bench.stop();
});
const everywhere = ['/', '/assets/index-Ab12Cd34.js', '/api/build', '/api/events', '/api/readings', '/files/build.yaml', '/nothing'];

describe('the token', () => {
  it('in the address is taken for a cookie, and leaves the address', async () => {
    expect(bench.server.address).toBe(`${bench.origin}/?token=test-token`);
    const answer = await bench.ask('/?token=test-token', { known: false });
    expect(answer.status).toBe(303);
    expect(answer.headers.location).toBe('/');
    expect(answer.headers['set-cookie']).toEqual([`halfshaft-${bench.server.port}=test-token; HttpOnly; SameSite=Strict; Path=/`]);
  });
  it.each(['/?token=', '/?token=test-toke', '/?token=test-token2', '/api/build?token=test-token', '/?token=wrong&token=test-token'])('%s lets nobody in', async (path) => {
    const answer = await bench.ask(path, { known: false });
    expect(answer.status).toBe(401);
    expect(answer.headers['set-cookie']).toBeUndefined();
  });
  it.each(everywhere)('is needed for %s', async (path) => {
    for (const headers of [{}, { Cookie: `halfshaft-${bench.server.port}=test-tokeN` }, { Cookie: 'halfshaft-1=test-token' }]) {
      const answer = await bench.ask(path, { known: false, headers });
      expect(answer.status).toBe(401);
      expect(answer.text).toContain('Use the address printed in the terminal');
    }
  });
  it('is another at every start, and too long to guess', () => {
    expect(newToken()).toMatch(/^[\w-]{32}$/);
    expect(newToken()).not.toBe(newToken());
  });
});

describe('the name the server is called by', () => {
  it.each(['evil.example', 'evil.example:PORT', '127.0.0.1', '127.0.0.1:1', 'localhost.evil.example:PORT', '127.0.0.1.:PORT'])('must not be "%s"', async (name) => {
    for (const path of [...everywhere, '/?token=test-token']) {
      expect((await bench.ask(path, { headers: { Host: name.replace('PORT', String(bench.server.port)) } })).status).toBe(403);
    }
  });
  it.each(['127.0.0.1', 'localhost', '[::1]', 'LOCALHOST'])('may be %s', async (name) => {
    expect((await bench.ask('/', { headers: { Host: `${name}:${bench.server.port}` } })).status).toBe(200);
  });
  it('may be the host that was given, and every address of the machine when it listens on all', () => {
    expect(ownNames('192.168.1.5', 80)).toContain('192.168.1.5');
    expect(ownNames('192.168.1.5', 8000)).toContain('192.168.1.5:8000');
    expect(ownNames('192.168.1.5', 8000)).not.toContain('192.168.1.5');
    expect(ownNames('fd00::1', 8000)).toContain('[fd00::1]:8000');
    expect(ownNames('0.0.0.0', 8000)).not.toContain('0.0.0.0:8000');
  });
});

describe('the page that asks', () => {
  const read = (headers: Record<string, string>): Promise<number> => bench.ask('/api/build', { headers }).then(({ status }) => status);
  const write = (headers: Record<string, string>): Promise<number> => bench.ask('/api/build', { method: 'PUT', body: 'x', headers: { 'If-Match': '"other"', ...headers } }).then(({ status }) => status);
  it.each(['null', 'http://evil.example', 'http://127.0.0.1:1', 'https://HOST', 'http://localhost:PORT'])('must not be of %s', async (from) => {
    const Origin = from.replace('HOST', `127.0.0.1:${bench.server.port}`).replace('PORT', String(bench.server.port));
    expect(await read({ Origin })).toBe(403);
    expect(await write({ Origin })).toBe(403);
    expect(await write({ Origin, 'Sec-Fetch-Site': 'same-origin' })).toBe(403);
  });
  it.each(['cross-site', 'same-site'])('must not be %s', async (site) => {
    expect(await read({ 'Sec-Fetch-Site': site })).toBe(403);
    expect(await write({ 'Sec-Fetch-Site': site })).toBe(403);
  });
  it('must be named to change anything', async () => {
    expect(await write({})).toBe(403);
    expect(await write({ 'Sec-Fetch-Site': 'none' })).toBe(403);
    // 412: let in, and turned away only for the version
    expect(await write({ Origin: bench.origin })).toBe(412);
    expect(await write({ 'Sec-Fetch-Site': 'same-origin' })).toBe(412);
  });
  it('gets no leave to call from elsewhere', async () => {
    const answer = await bench.ask('/api/build', { method: 'OPTIONS', headers: { Origin: 'http://evil.example', 'Access-Control-Request-Method': 'PUT' } });
    expect(answer.status).toBe(403);
    expect(Object.keys(answer.headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
  });
});

describe('every answer', () => {
  it.each([...everywhere.filter((path) => path !== '/api/events'), '/?token=test-token', '/files/../x', '/%'])('of %s carries the headers that keep the browser in', async (path) => {
    for (const asked of [{}, { known: false }, { headers: { Host: 'evil.example' } }, { method: 'HEAD' }, { method: 'PUT', headers: { Origin: bench.origin } }]) {
      const { headers } = await bench.ask(path, asked);
      expect(headers['content-security-policy']).toMatch(/^default-src 'none'; .*frame-ancestors 'none'/);
      expect(headers['content-security-policy']).not.toMatch(/unsafe|\*|https?:/);
      expect(headers).toMatchObject({ 'x-content-type-options': 'nosniff', 'referrer-policy': 'no-referrer', 'cross-origin-opener-policy': 'same-origin', 'cross-origin-resource-policy': 'same-origin' });
      expect(headers['cache-control']).toMatch(/^no-store$|immutable/);
      expect(headers['x-powered-by'] ?? headers['server']).toBeUndefined();
    }
  });
  it('to nonsense is an answer', async () => {
    const first = await new Promise<string>((resolve, reject) => {
      const socket = connect(bench.server.port, '127.0.0.1', () => socket.end(`GET /\\..\\x HTTP/1.1\r\nHost: 127.0.0.1:${bench.server.port}\r\nConnection: close\r\n\r\n`));
      socket.setEncoding('utf8').once('data', resolve).on('error', reject);
    });
    expect(first).toMatch(/^HTTP\/1\.1 40\d /);
    expect(first.toLowerCase()).toContain("content-security-policy: default-src 'none'");
  });
});

describe('the app', () => {
  it('gets a nonce of its own each time it is opened', async () => {
    const [one, two] = [await bench.ask('/'), await bench.ask('/')];
    const nonce = (answer: typeof one): string => /content="([\w-]{24})"/.exec(answer.text)?.[1] as string;
    expect(nonce(one)).not.toBe(nonce(two));
    expect(one.headers['content-security-policy']).toContain(`style-src 'self' 'nonce-${nonce(one)}'`);
    expect(one.headers['content-type']).toBe('text/html; charset=UTF-8');
    expect(one.headers['cache-control']).toBe('no-store');
  });
  it('comes zipped to those who take it so, and is kept for good under its hashed name', async () => {
    const plain = await bench.ask('/assets/index-Ab12Cd34.js');
    expect(plain.text).toBe(script);
    expect(plain.headers['content-encoding']).toBeUndefined();
    expect(plain.headers['content-type']).toBe('text/javascript; charset=utf-8');
    expect(plain.headers['cache-control']).toContain('immutable');
    const zipped = await bench.ask('/assets/index-Ab12Cd34.js', { headers: { 'Accept-Encoding': 'br, gzip;q=0.8' } });
    expect(zipped.headers['content-encoding']).toBe('gzip');
    expect(zipped.bytes.length).toBeLessThan(plain.bytes.length / 4);
    expect(gunzipSync(zipped.bytes).toString()).toBe(script);
    expect((await bench.ask('/assets/index-Ab12Cd34.js', { headers: { 'Accept-Encoding': 'gzip;q=0' } })).headers['content-encoding']).toBeUndefined();
    expect((await bench.ask('/mark.svg')).headers).toMatchObject({ 'content-type': 'image/svg+xml', 'cache-control': 'no-store' });
  });
  it.each(['/assets/', '/assets', '/assets/none-12345678.js', '/index.html', '/assets/..%2findex.html', '/..%2fB%C3%A4ckerei%20van%2fbuild.yaml', '/assets/%2e%2e/%2e%2e/etc/passwd', '/api/other'])('has nothing at %s', async (path) => {
    expect((await bench.ask(path)).status).toBe(404);
  });
});
