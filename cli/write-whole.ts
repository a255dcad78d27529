/** Writes a file whole or not at all. */
import { writeFileSync } from 'node:fs';
import writeFileAtomic from 'write-file-atomic';
import { whyNot } from './why-not.ts';
import { WrongCall } from './wrong-call.ts';

/**
 * @throws WrongCall when it cannot be written; what was there before is still there
 */
export function writeWhole(file: string, content: string | Uint8Array): void {
  try {
    // the package takes a write that a full disk cut short for a whole one; filling the file beforehand fails where the disk is full
    writeFileAtomic.sync(file, typeof content === 'string' ? content : Buffer.from(content), { tmpfileCreated: (temporary) => writeFileSync(temporary, content) });
  } catch (error) {
    throw new WrongCall(`${file} cannot be written: ${whyNot(error)}.`);
  }
}
