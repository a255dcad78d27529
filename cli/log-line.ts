/** What every line of readings.csv gets that the terminal writes: an id, who looked; and what a refused log is told as. */
import { randomUUID } from 'node:crypto';
import { userInfo } from 'node:os';
import { Refusal } from '../server/refusal.ts';
import { WrongCall } from './wrong-call.ts';

/** An id that no other line has. */
export const newLineId = (): string => randomUUID().slice(0, 8);

/** Who is logged in; some systems know nobody. */
export function loggedIn(): string {
  try { return userInfo().username; } catch { return ''; }
}

/** @throws WrongCall when the log cannot be read or written */
export async function orWrongCall<T>(asked: Promise<T>): Promise<T> {
  try {
    return await asked;
  } catch (error) {
    if (error instanceof Refusal) throw new WrongCall(error.message);
    throw error;
  }
}
