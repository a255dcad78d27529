/**
 * Who is let in. The server listens on this machine, where every page of every browser can reach it: the name it is called
 * by, the page that calls and a token that only the terminal shows decide, in this order.
 */
import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';
import { hostname, networkInterfaces } from 'node:os';
import type { MiddlewareHandler } from 'hono';
import { getCookie } from 'hono/cookie';

/** A token nobody guesses: 192 bit. */
export function newToken(): string {
  return randomBytes(24).toString('base64url');
}

/** Whether a host stands for every address of the machine. */
export const isEveryAddress = (host: string): boolean => host === '0.0.0.0' || host === '::';

/** The names under which the server may be called. A name of somebody else that leads here is a page that tries it on. */
export function ownNames(host: string, port: number): ReadonlySet<string> {
  const others = isEveryAddress(host) ? [hostname(), ...Object.values(networkInterfaces()).flatMap((all) => (all ?? []).map(({ address }) => address))] : [host];
  const names = ['127.0.0.1', 'localhost', '::1', ...others].map(inAddress);
  // a browser leaves out the port that http has by itself
  return new Set(names.flatMap((name) => (port === 80 ? [name, `${name}:80`] : [`${name}:${port}`])));
}

/** A host as it stands in an address: IPv6 in brackets. */
export function inAddress(host: string): string {
  return (host.includes(':') ? `[${host}]` : host).toLowerCase();
}

const answers = {
  name: 'This server is called by another name than its own. Use the address printed in the terminal.\n',
  page: 'Another page asked. Only the workbench itself may.\n',
};

const noToken = `<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Halfshaft</title></head>
<body><h1>Use the address printed in the terminal</h1>
<p>The workbench opens only with the whole address that <code>halfshaft open</code> printed, with its token. Each start has a new one.</p>
</body></html>
`;

/** Host, then Origin, then token. */
export function whoMayEnter(names: ReadonlySet<string>, port: number, token: string): MiddlewareHandler {
  const cookie = `halfshaft-${port}`;
  return async (c, next) => {
    const host = c.req.header('host')?.toLowerCase() ?? '';
    if (!names.has(host)) return c.text(answers.name, 403);
    const origin = c.req.header('origin');
    const site = c.req.header('sec-fetch-site');
    if (origin !== undefined && origin !== `http://${host}`) return c.text(answers.page, 403);
    // servers on other ports of this machine count as one site and get the same cookies: only one's own origin will do
    if (c.req.path !== '/' && site !== undefined && site !== 'same-origin' && site !== 'none') return c.text(answers.page, 403);
    const changes = c.req.method !== 'GET' && c.req.method !== 'HEAD';
    if (changes && origin === undefined && site !== 'same-origin') return c.text(answers.page, 403);

    const hasCookie = isSame(getCookie(c, cookie), token);
    const shown = c.req.path === '/' && !changes ? c.req.query('token') : undefined;
    if (shown !== undefined && (hasCookie || isSame(shown, token))) {
      c.header('Set-Cookie', `${cookie}=${token}; HttpOnly; SameSite=Strict; Path=/`);
      return c.redirect('/', 303);
    }
    if (!hasCookie) return c.html(noToken, 401);
    return next();
  };
}

/** Takes as long for a near miss as for a far one. */
function isSame(shown: string | undefined, token: string): boolean {
  const digest = (text: string): Buffer => createHash('sha256').update(text).digest();
  return timingSafeEqual(digest(shown ?? ''), digest(token)) && shown !== undefined;
}
