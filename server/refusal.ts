/** What the server will not or cannot do, in words for the builder. */
import { whyNot } from './why-not.ts';

/** A request is refused: the message is the body of the answer. */
export class Refusal extends Error {
  constructor(readonly status: 400 | 403 | 404 | 405 | 409 | 413 | 428 | 500 | 507, message: string) { super(message); }
}

/** The server cannot start; the message is for the terminal. */
export class CannotStart extends Error {}

const noRoom = new Set(['ENOSPC', 'EDQUOT', 'EFBIG']);

/** The refusal for what the system said about a file; anything else than a word of the system is thrown on. */
export function refusedBySystem(error: unknown, what: string): Refusal {
  const { code } = error as NodeJS.ErrnoException;
  if (error instanceof Refusal) return error;
  if (code === undefined) throw error;
  return new Refusal(noRoom.has(code) ? 507 : 500, `${what}: ${code === 'ENOENT' ? 'the build folder is gone' : whyNot(error)}.`);
}
