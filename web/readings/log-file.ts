/** readings.csv as the server gives it, adds to it, and tells that it has changed. */
import { AWAY, whyRefused } from '../server-link/why-refused.ts';

export type LogAnswer = { readonly ok: true; readonly text: string } | { readonly ok: false; readonly why: string };
export type AddAnswer = { readonly ok: true; /** what was written behind the text that the file held; '' when it held the line already */ readonly added: string } | { readonly ok: false; readonly why: string };

/** Letters of a refusal that are shown. */
const LONGEST_WHY = 300;

export const logFile = {
  /** the whole text; '' while there is no file */
  get: async (): Promise<LogAnswer> => {
    try {
      const answer = await fetch('/api/readings', { cache: 'no-store', headers: { 'If-None-Match': '"absent"' } });
      return answer.ok ? { ok: true, text: await answer.text() } : answer.status === 304 ? { ok: true, text: '' } : { ok: false, why: await whyRefused(answer, LONGEST_WHY) };
    } catch {
      return { ok: false, why: AWAY };
    }
  },
  /** @param cells  a text for each column; the same id again adds nothing, so that what was not answered can be sent again */
  add: async (cells: Readonly<Record<string, string>>): Promise<AddAnswer> => {
    try {
      const answer = await fetch('/api/readings', { method: 'POST', headers: { 'Content-Type': 'application/json' }, body: JSON.stringify(cells) });
      return answer.ok ? { ok: true, added: await answer.text() } : { ok: false, why: await whyRefused(answer, LONGEST_WHY) };
    } catch {
      return { ok: false, why: AWAY };
    }
  },
  /** @param changed  told when it has changed, and when the connection is made again. @returns ends it */
  follow: (changed: () => void): (() => void) => {
    const events = new EventSource('/api/events');
    events.addEventListener('hello', changed);
    events.addEventListener('readings', changed);
    return () => events.close();
  },
};

/** An id that no other line has. */
export const newLineId = (): string => [...crypto.getRandomValues(new Uint8Array(5))].map((byte) => byte.toString(36).padStart(2, '0')).join('').slice(0, 10);
