/** What the system said when a file could not be written, in words. */
const words: Readonly<Record<string, string>> = {
  ENOENT: 'the folder it would stand in does not exist',
  ENOTDIR: 'something on the way to it is a file, not a folder',
  EISDIR: 'it is a folder',
  EEXIST: 'something of that name is there already',
  EACCES: 'you have no permission to write there',
  EPERM: 'you have no permission to write there',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
};

export function whyNot(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  return words[code ?? ''] ?? message;
}
