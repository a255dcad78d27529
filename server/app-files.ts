/** The workbench itself: index.html and the files that the build put beside it. */
import { readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import { promisify } from 'node:util';
import { gzip } from 'node:zlib';

export interface AppFile { readonly bytes: Buffer; readonly zipped: Buffer | undefined; readonly type: string; /** its name changes with its content */ readonly isHashed: boolean }

export interface AppFiles {
  /** @param nonce  takes the place of `__NONCE__` */
  readonly index: (nonce: string) => Promise<string>;
  readonly file: (path: string) => Promise<AppFile | undefined>;
  /** zips what the index names while the browser is still starting */
  readonly warmUp: () => Promise<void>;
}

const types: Readonly<Record<string, string>> = {
  '.js': 'text/javascript; charset=utf-8', '.mjs': 'text/javascript; charset=utf-8', '.css': 'text/css; charset=utf-8', '.json': 'application/json',
  '.map': 'application/json', '.txt': 'text/plain; charset=utf-8', '.svg': 'image/svg+xml', '.png': 'image/png', '.ico': 'image/x-icon',
  '.woff2': 'font/woff2', '.woff': 'font/woff', '.wasm': 'application/wasm', '.webmanifest': 'application/manifest+json',
};
/** Below this, and for what is packed already, zipping only costs time. [bytes] */
const WORTH_ZIPPING = 1024;
const packed = new Set(['.png', '.ico', '.woff2', '.woff']);
const hashedName = /^assets\/.*[-.][A-Za-z0-9_-]{8,}\.\w+$/;
const plainPath = /^(?:[A-Za-z0-9_-][A-Za-z0-9._-]*\/)*[A-Za-z0-9_-][A-Za-z0-9._-]*$/;

/** @param folder  what vite wrote: index.html and assets */
export function appFiles(folder: string): AppFiles {
  const zips = new Map<string, Promise<AppFile>>();
  const load = async (path: string): Promise<AppFile> => {
    const bytes = await readFile(join(folder, path));
    const ending = extname(path).toLowerCase();
    const zipped = bytes.length < WORTH_ZIPPING || packed.has(ending) ? undefined : await promisify(gzip)(bytes);
    return { bytes, zipped, type: types[ending] ?? 'application/octet-stream', isHashed: hashedName.test(path) };
  };
  const file = async (path: string): Promise<AppFile | undefined> => {
    if (!plainPath.test(path) || path === 'index.html') return undefined;
    const loading = zips.get(path) ?? load(path);
    // zipped once: a name with its hash never means another file
    if (hashedName.test(path)) zips.set(path, loading);
    try {
      return await loading;
    } catch (error) {
      zips.delete(path);
      if (['ENOENT', 'EISDIR', 'ENOTDIR', 'ENAMETOOLONG'].includes((error as NodeJS.ErrnoException).code ?? '')) return undefined;
      throw error;
    }
  };
  const index = async (nonce: string): Promise<string> => (await readFile(join(folder, 'index.html'), 'utf8')).replaceAll('__NONCE__', nonce);
  return {
    index, file,
    warmUp: async () => {
      // what is missing shows when it is asked for
      const text = await index('').catch(() => '');
      await Promise.all([...text.matchAll(/(?:src|href)="(?:\.?\/)?(assets\/[^"]+)"/g)].map(([, path]) => file(path as string).catch(() => undefined)));
    },
  };
}

/** Whether an Accept-Encoding header takes gzip. */
export function takesGzip(header: string | undefined): boolean {
  return (header ?? '').split(',').some((one) => /^\s*gzip\s*(?:;\s*q=(?!0(?:\.0*)?\s*$).*)?$/i.test(one));
}
