/** Files beside the build (meshes, photographs, logs, readings): read only, and nothing outside of the folder. */
import { constants } from 'node:fs';
import { open, realpath } from 'node:fs/promises';
import { extname, isAbsolute, join, relative, sep } from 'node:path';
import { Readable } from 'node:stream';

export interface FolderFile {
  readonly body: ReadableStream<Uint8Array>; /** [bytes] */ readonly size: number;
  readonly type: string; /** whether a browser may show it, or only save it */ readonly shown: boolean;
}

/** Pictures that cannot carry a script. SVG can, so it is shown as text. */
const pictures: Readonly<Record<string, string>> = { '.png': 'image/png', '.jpg': 'image/jpeg', '.jpeg': 'image/jpeg', '.gif': 'image/gif', '.webp': 'image/webp', '.avif': 'image/avif' };
const texts = new Set(['.txt', '.md', '.csv', '.yaml', '.yml', '.json', '.log', '.svg', '.html', '.htm', '.xml', '.dbc']);

/**
 * @param folder  the build folder, its real path
 * @param path    as it stands in the address, still percent-encoded, such as `photos/front%20axle.jpg`
 * @returns undefined when there is no such file, or it is none of the builder's business here: a hidden file, a folder,
 *          a link that leads out
 */
export async function openFolderFile(folder: string, path: string): Promise<FolderFile | undefined> {
  const names = path.split('/').map(decodedName);
  if (!names.every((name) => name !== undefined)) return undefined;
  const real = await realpath(join(folder, ...names)).catch(() => undefined);
  if (real === undefined || !isInside(folder, real)) return undefined;
  if (relative(folder, real).split(sep).some((name) => name.startsWith('.'))) return undefined;
  // a pipe must not hold up the server, and a link put there since the check is not followed
  const handle = await open(real, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0)).catch(() => undefined);
  const found = await handle?.stat();
  if (!handle || !found?.isFile()) {
    await handle?.close();
    return undefined;
  }
  const ending = extname(real).toLowerCase();
  const type = pictures[ending] ?? (texts.has(ending) ? 'text/plain; charset=utf-8' : 'application/octet-stream');
  return { body: Readable.toWeb(handle.createReadStream()) as ReadableStream<Uint8Array>, size: found.size, type, shown: type !== 'application/octet-stream' };
}

/** Whether a real path is the folder or lies below it. */
export function isInside(folder: string, real: string): boolean {
  const way = relative(folder, real);
  return way !== '..' && !way.startsWith(`..${sep}`) && !isAbsolute(way);
}

/** The name that one stretch of an address stands for, unless it is hidden, empty or could be more than a name. */
function decodedName(encoded: string): string | undefined {
  let name: string;
  try {
    name = decodeURIComponent(encoded);
  } catch {
    return undefined;
  }
  // a colon would be a drive or a hidden stream of a file on some systems
  return name === '' || name.startsWith('.') || /[/\\:\0]/.test(name) ? undefined : name;
}
