/** Notices when readings.csv becomes another text, by whatever program, and tells those who listen. */
import { stat } from 'node:fs/promises';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { watch } from 'node:fs';
import { ABSENT, SETTLED } from './build-on-disk.ts';
import { READINGS, readReadings } from './readings-on-disk.ts';

export interface WatchedReadings {
  /** told the version of the file. @returns a call that ends it */
  readonly listen: (listener: (etag: string) => void) => () => void;
  /** looks at once: something was added here */
  readonly look: () => Promise<void>;
  readonly close: () => void;
}

/** Where the system tells nothing, the file's date is looked at. [ms] */
const LOOK_EVERY = 2_000;

/** @param folder  the build folder, its real path */
export function watchReadings(folder: string): WatchedReadings {
  const file = join(folder, READINGS);
  const listeners = new Set<(etag: string) => void>();
  let known: string | undefined;
  let date: string | undefined;
  let isOver = false;
  const dated = (): Promise<string> => stat(file, { bigint: true }).then(({ mtimeNs, ino, size }) => `${mtimeNs} ${ino} ${size}`, () => ABSENT);
  let looking: Promise<void> = Promise.resolve();
  const lookOnce = async (): Promise<void> => {
    const now = await dated();
    if (now === date || isOver) return;
    date = now;
    const isFirst = known === undefined;
    const before = known;
    // what cannot be read is told to whoever asks for it
    known = now === ABSENT ? ABSENT : await readReadings(folder).then(({ etag }) => etag, () => '"unreadable"');
    if (!isFirst && known !== before) for (const listener of listeners) listener(known);
  };
  const look = (): Promise<void> => {
    looking = looking.then(lookOnce, lookOnce);
    return looking;
  };
  void look();
  const timer = setInterval(() => void look(), LOOK_EVERY);
  timer.unref();
  let settling = false;
  const hear = async (): Promise<void> => {
    if (settling) return;
    settling = true;
    await pause(SETTLED);
    settling = false;
    await look();
  };
  const watcher = watchFolder(folder, (name) => { if (name === null || name === READINGS) void hear(); });
  return {
    look,
    listen: (listener) => {
      listeners.add(listener);
      return () => { listeners.delete(listener); };
    },
    close: () => {
      isOver = true;
      clearInterval(timer);
      listeners.clear();
      watcher?.close();
    },
  };
}

/** undefined where the system cannot: the date is looked at all the same */
function watchFolder(folder: string, heard: (name: string | null) => void): { close: () => void } | undefined {
  try {
    const watcher = watch(folder, { persistent: false }, (_, name) => heard(name));
    watcher.on('error', () => watcher.close());
    return watcher;
  } catch {
    return undefined;
  }
}
