/** The one text of the build folder: read whole, written whole, one after the other. */
import { isUtf8 } from 'node:buffer';
import { createHash } from 'node:crypto';
import { lstat, readFile, realpath, stat } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout } from 'node:timers/promises';
import { isInside } from './folder-files.ts';
import { whyTooLarge } from './largest-build.ts';
import { Refusal, refusedBySystem } from './refusal.ts';
import { writeWhole } from './write-whole.ts';

/** The version of a build that has no file yet. */
export const ABSENT = '"absent"';
/** The version of a file that is there and cannot be shown; asking for it says why. */
const UNREADABLE = '"unreadable"';

export interface Version { readonly bytes: Buffer; readonly etag: string }

export interface BuildOnDisk {
  /** @throws Refusal when build.yaml leads out of its folder, is no file, is too large or is no text */
  readonly read: () => Promise<Version>;
  /**
   * Writes the text, if the file still is the version that the change was made on.
   * @param ifMatch  the header: one or more versions
   * @returns saved, or the version on disk that stands in the way
   * @throws Refusal
   */
  readonly save: (bytes: Buffer, ifMatch: string) => Promise<{ readonly saved: boolean; readonly now: Version }>;
}

/** An editor that empties the file and fills it again is done by then. [ms] */
export const SETTLED = 60;

/**
 * @param folder  the build folder, its real path
 * @param seen    told every version that was read or written, in the order in which they stood on disk
 */
export function buildOnDisk(folder: string, seen: (etag: string) => void): BuildOnDisk {
  const file = join(folder, 'build.yaml');
  let known: string | undefined;
  let queue: Promise<unknown> = Promise.resolve();
  const inTurn = <T>(job: () => Promise<T>): Promise<T> => {
    const result = queue.then(job);
    queue = result.catch(() => undefined);
    return result;
  };
  const tell = (etag: string): void => {
    known = etag;
    seen(etag);
  };
  const look = async (): Promise<Version> => {
    try {
      const now = await readVersion(folder, file);
      tell(now.etag);
      return now;
    } catch (error) {
      tell(UNREADABLE);
      throw refusedBySystem(error, `${file} cannot be read`);
    }
  };
  return {
    read: () => inTurn(look),
    save: (bytes, ifMatch) => inTurn(async () => {
      const knownBefore = known;
      let before = await look();
      // another version than the last one may be half of what an editor is writing: nobody should have to merge with that
      for (let again = 0; again < 20 && before.etag !== knownBefore && !matches(ifMatch, before.etag); again++) {
        await setTimeout(SETTLED);
        const { etag } = before;
        before = await look();
        if (before.etag === etag) break;
      }
      if (!matches(ifMatch, before.etag)) return { saved: false, now: before };
      const now = { bytes, etag: etagOf(bytes) };
      if (now.etag === before.etag) return { saved: true, now };
      try {
        await writeWhole(file, bytes);
      } catch (error) {
        throw refusedBySystem(error, `${file} was not saved, it is as it was before`);
      }
      tell(now.etag);
      return { saved: true, now };
    }),
  };
}

/** Whether a list of versions in If-Match or If-None-Match names this one. A weak one counts: a proxy may have weakened it. */
export function matches(header: string, etag: string): boolean {
  return header.split(',').some((one) => one.trim().replace(/^W\//, '') === etag);
}

export function etagOf(bytes: Uint8Array): string {
  return `"${createHash('sha256').update(bytes).digest('hex')}"`;
}

async function readVersion(folder: string, file: string): Promise<Version> {
  const entry = await lstat(file).catch((error: NodeJS.ErrnoException) => {
    if (error.code === 'ENOENT') return undefined;
    throw error;
  });
  if (!entry) return { bytes: Buffer.alloc(0), etag: ABSENT };
  if (entry.isSymbolicLink()) {
    const target = await realpath(file).catch(() => undefined);
    if (target === undefined || !isInside(folder, target)) {
      throw new Refusal(409, `${file} is a link that leads out of its folder${target === undefined ? ', to nothing' : ` to ${target}`}. The workbench writes only inside the build folder: put the file itself there.`);
    }
  }
  const { size, isFile } = await stat(file).then((found) => ({ size: found.size, isFile: found.isFile() }));
  if (!isFile) throw new Refusal(409, `${file} is no file. Move it away, or name another build folder.`);
  const tooLarge = whyTooLarge(file, size);
  if (tooLarge !== undefined) throw new Refusal(409, tooLarge);
  const bytes = await readFile(file);
  // shown as text and saved again, such bytes would be lost
  if (!isUtf8(bytes)) throw new Refusal(409, `${file} is not UTF-8 text. Save it as UTF-8 in the program that wrote it.`);
  return { bytes, etag: etagOf(bytes) };
}
