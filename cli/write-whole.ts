/** Writes what a command makes, whole or not at all. */
import { statSync } from 'node:fs';
import { whyNot } from '../server/why-not.ts';
import { writeWhole as writeOnDisk } from '../server/write-whole.ts';
import { WrongCall } from './wrong-call.ts';

/** @throws WrongCall when it cannot be written; what was there before is still there */
export async function writeWhole(file: string, content: string | Uint8Array): Promise<void> {
  try {
    // what is written takes the name: a device or a pipe of that name would be gone
    if (statSync(file, { throwIfNoEntry: false })?.isFile() === false) throw new WrongCall(`${file} is no file; nothing was written.`);
    await writeOnDisk(file, typeof content === 'string' ? content : Buffer.from(content));
  } catch (error) {
    throw error instanceof WrongCall ? error : new WrongCall(`${file} cannot be written: ${whyNot(error)}.`);
  }
}
