/** What the system said about a file or a folder, in words for the builder. The command line says it in the same words. */
const words: Readonly<Record<string, string>> = {
  ENOENT: 'the folder it would stand in does not exist',
  ENOTDIR: 'something on the way to it is a file, not a folder',
  EISDIR: 'it is a folder',
  EEXIST: 'something of that name is there already',
  EACCES: 'you have no permission',
  EPERM: 'you have no permission',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  EFBIG: 'the disk takes no file of this size',
  EBUSY: 'another program holds it',
};

export function whyNot(error: unknown): string {
  const { code, message } = error as NodeJS.ErrnoException;
  return words[code ?? ''] ?? message;
}
