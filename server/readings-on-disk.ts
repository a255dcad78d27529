/**
 * readings.csv, only ever added to. A line is one write at the end of the file, flushed to the disk before it counts as kept: programs that
 * add at the same time never mix their lines, and a crash leaves the lines before it whole.
 */
import { createHash } from 'node:crypto';
import { constants } from 'node:fs';
import { open, stat, type FileHandle } from 'node:fs/promises';
import { join } from 'node:path';
import { lineFor, readLog, type ReadingLog } from '../core/readings/log.ts';
import type { Reading } from '../core/readings/reading.ts';
import { ABSENT } from './build-on-disk.ts';
import { Refusal, refusedBySystem } from './refusal.ts';

export const READINGS = 'readings.csv';
/** Some 50,000 readings: what is larger was named by mistake. [bytes] */
export const LARGEST_LOG = 16_000_000;

export interface LogOnDisk { readonly text: string; readonly log: ReadingLog; readonly etag: string }

/** @throws Refusal when it is there and cannot be read. No file is an empty log. */
export async function readReadings(folder: string): Promise<LogOnDisk> {
  const file = join(folder, READINGS);
  try {
    const handle = await open(file, constants.O_RDONLY | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0));
    try {
      return read(await bytesOf(handle, file));
    } finally {
      await handle.close();
    }
  } catch (error) {
    if ((error as NodeJS.ErrnoException).code === 'ENOENT' && await stat(folder).then(() => true, () => false)) return { text: '', log: readLog(''), etag: ABSENT };
    throw refusalOf(error, file, 'cannot be read');
  }
}

/**
 * Adds a reading.
 * @returns the text of the line that was added; undefined when the log holds that very reading already (an answer was lost on its way)
 * @throws Refusal: nothing is kept then, but a full disk may leave a part of a line, which is read over and told
 */
export async function addReading(folder: string, reading: Reading): Promise<string | undefined> {
  const file = join(folder, READINGS);
  let handle: FileHandle | undefined;
  try {
    handle = await open(file, constants.O_RDWR | constants.O_APPEND | constants.O_CREAT | (constants.O_NOFOLLOW ?? 0) | (constants.O_NONBLOCK ?? 0), 0o666);
    const before = await settledBytesOf(handle, file);
    const { log } = read(before);
    const same = log.readings.find(({ id }) => id === reading.id);
    if (same) {
      if (same.reading === reading.reading && same.step === reading.step) return undefined;
      throw new Refusal(409, `There is another reading with the id ${reading.id} already; this one was not kept.`);
    }
    if (reading.replaces !== '' && !log.readings.some(({ id }) => id === reading.replaces)) throw new Refusal(409, `There is no reading ${reading.replaces} to correct; this one was not kept.`);
    const line = lineFor(reading, log);
    const bytes = Buffer.from(line, 'utf8');
    if (before.length + bytes.length > LARGEST_LOG) throw new Refusal(409, `${file} is full (${LARGEST_LOG / 1e6} MB). Move it away; the next reading starts a new one.`);
    // one write: the system puts it behind whatever is there by then
    const { bytesWritten } = await handle.write(bytes, 0, bytes.length);
    if (bytesWritten !== bytes.length) throw new Refusal(507, `The disk took only a part of the reading; it was not kept. Make room and enter it again.`);
    await handle.sync();
    if (before.length === 0) await syncFolder(folder);
    return line;
  } catch (error) {
    throw refusalOf(error, file, 'the reading was not kept');
  } finally {
    await handle?.close();
  }
}

/** What the file holds once nobody is writing: an end without a line end is another program's line on its way, unless it stays so. */
async function settledBytesOf(handle: FileHandle, file: string): Promise<Buffer> {
  let bytes = await bytesOf(handle, file);
  for (let same = 0; bytes.length > 0 && bytes.at(-1) !== LINE_END && same < LOOKS;) {
    await new Promise((resolve) => setTimeout(resolve, BETWEEN_LOOKS));
    const now = await bytesOf(handle, file);
    same = now.length === bytes.length ? same + 1 : 0;
    bytes = now;
  }
  return bytes;
}

const LINE_END = 0x0a;
const LOOKS = 4;
/** [ms] */
const BETWEEN_LOOKS = 20;

async function bytesOf(handle: FileHandle, file: string): Promise<Buffer> {
  const found = await handle.stat();
  if (!found.isFile()) throw new Refusal(409, `${file} is no file. Move it away.`);
  if (found.size > LARGEST_LOG) throw new Refusal(409, `${file} is ${(found.size / 1e6).toFixed(1)} MB; a log of readings is at most ${LARGEST_LOG / 1e6} MB. Move it away.`);
  const bytes = Buffer.alloc(found.size);
  let length = 0;
  while (length < found.size) {
    const { bytesRead } = await handle.read(bytes, length, found.size - length, length);
    if (bytesRead === 0) break;
    length += bytesRead;
  }
  return bytes.subarray(0, length);
}

function read(bytes: Buffer): LogOnDisk {
  const text = bytes.toString('utf8');
  return { text, log: readLog(text), etag: `"${createHash('sha256').update(bytes).digest('hex')}"` };
}

function refusalOf(error: unknown, file: string, what: string): Refusal {
  const { code } = error as NodeJS.ErrnoException;
  if (code === 'ELOOP' || code === 'EMLINK') return new Refusal(409, `${file} is a link. Put the file itself there.`);
  if (code === 'EISDIR' || code === 'ENXIO') return new Refusal(409, `${file} is no file. Move it away.`);
  return refusedBySystem(error, `${file}: ${what}`);
}

/** A new name outlasts a power cut only when the folder is on disk too; not every system can do that. */
async function syncFolder(folder: string): Promise<void> {
  const handle = await open(folder).catch(() => undefined);
  await handle?.sync().catch(() => undefined);
  await handle?.close();
}
