/** Notices when build.yaml becomes another text, by whatever program, and tells those who listen. */
import { stat } from 'node:fs/promises';
import { basename, join } from 'node:path';
import { watch } from 'chokidar';
import { ABSENT, SETTLED, type BuildOnDisk, buildOnDisk } from './build-on-disk.ts';

export interface BuildNews { readonly event: 'changed' | 'gone'; readonly etag: string }

export interface WatchedBuild {
  readonly disk: BuildOnDisk;
  /** the version last seen */
  readonly version: () => string;
  /** @returns a call that ends it */
  readonly listen: (listener: (news: BuildNews) => void) => () => void;
  readonly close: () => Promise<void>;
}

/** Network drives and synchronised folders may tell nobody: the file's date is looked at. [ms] */
const LOOK_EVERY = 2_000;

/** @param folder  the build folder, its real path */
export async function watchBuild(folder: string, log: (line: string) => void): Promise<WatchedBuild> {
  const listeners = new Set<(news: BuildNews) => void>();
  let version: string | undefined;
  const disk = buildOnDisk(folder, (etag) => {
    const before = version;
    version = etag;
    if (before === undefined || before === etag) return;
    for (const listener of listeners) listener({ event: etag === ABSENT ? 'gone' : 'changed', etag });
  });
  // what stands in the way is told to whoever asks for the text
  const look = (): Promise<void> => disk.read().then(() => undefined, () => undefined);

  let settling: NodeJS.Timeout | undefined;
  const watcher = watch(folder, { depth: 0, ignoreInitial: true, ignored: (path) => path !== folder && basename(path) !== 'build.yaml' && basename(path) !== basename(folder) });
  watcher.on('all', () => {
    // one save by renaming makes several events
    clearTimeout(settling);
    settling = setTimeout(() => void look(), SETTLED);
  });
  watcher.on('error', (error) => log(`The folder cannot be watched (${error instanceof Error ? error.message : String(error)}); changes by other programs show after ${LOOK_EVERY / 1000} s.`));

  const dated = (): Promise<string> => stat(join(folder, 'build.yaml'), { bigint: true }).then(({ mtimeNs, ino, size }) => `${mtimeNs} ${ino} ${size}`, () => 'none');
  let date = await dated();
  const looking = setInterval(() => void dated().then((now) => {
    if (now !== date) void look();
    date = now;
  }), LOOK_EVERY);

  await Promise.all([look(), new Promise<void>((resolve) => { watcher.once('ready', () => resolve()).once('error', () => resolve()); })]);
  return {
    disk,
    version: () => version ?? ABSENT,
    listen: (listener) => {
      listeners.add(listener);
      return () => { listeners.delete(listener); };
    },
    close: async () => {
      clearTimeout(settling);
      clearInterval(looking);
      listeners.clear();
      await watcher.close();
    },
  };
}
