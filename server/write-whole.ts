/** Writes a file whole or not at all, and so that a power cut does not undo it. */
import { open, writeFile } from 'node:fs/promises';
import { dirname } from 'node:path';
import writeFileAtomic from 'write-file-atomic';

/** @throws what the system said; what was there before is still there */
export async function writeWhole(file: string, content: string | Buffer): Promise<void> {
  await writeFileAtomic(file, content, {
    // the library takes a short write on a full disk for a whole one: this one fails while the old file still stands
    tmpfileCreated: (temporary) => writeFile(temporary, content, { flag: 'r+' }) as unknown as void,
  });
  // the new name outlasts a power cut only when the folder is on disk too; not every system can do that
  const folder = await open(dirname(file)).catch(() => undefined);
  await folder?.sync().catch(() => undefined);
  await folder?.close();
}
