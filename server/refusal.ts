/** What the server will not or cannot do, in words for the builder. */

/** A request is refused: the message is the body of the answer. */
export class Refusal extends Error {
  constructor(readonly status: 400 | 403 | 404 | 405 | 409 | 413 | 428 | 500 | 507, message: string) { super(message); }
}

/** The server cannot start; the message is for the terminal. */
export class CannotStart extends Error {}

const words: Readonly<Record<string, string>> = {
  ENOENT: 'the build folder is gone',
  EACCES: 'you have no permission',
  EPERM: 'you have no permission',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
  EDQUOT: 'your share of the disk is full',
  EFBIG: 'the disk takes no file of this size',
  EBUSY: 'another program holds it',
};

const noRoom = new Set(['ENOSPC', 'EDQUOT', 'EFBIG']);

/** The refusal for what the system said about a file; anything else than a word of the system is thrown on. */
export function refusedBySystem(error: unknown, what: string): Refusal {
  const { code, message } = error as NodeJS.ErrnoException;
  if (error instanceof Refusal) return error;
  if (code === undefined) throw error;
  return new Refusal(noRoom.has(code) ? 507 : 500, `${what}: ${words[code] ?? message}.`);
}
