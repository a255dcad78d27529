import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { openDocument, undone, withText } from '../document/document.ts';
import type { TextDocument } from '../document/document.ts';
import type { BuildFile } from './build-file.ts';
import { fileKeeper } from './file-keeper.ts';
import type { FileState, Keeper } from './file-keeper.ts';

const base = 'a: 1\nb: 2\nc: 3\n';

/** A disk in memory that keeps the rules of the server. */
function disk(text: string) {
  const now = { text, etag: '"0"', isUp: true, puts: 0 };
  const write = (next: string): void => { now.text = next; now.etag = `"${Number(now.etag.slice(1, -1)) + 1}"`; };
  const file: BuildFile = {
    get: async () => (now.isUp ? { disk: { text: now.text, etag: now.etag }, name: 'van' } : { why: 'away' }),
    put: async (next, etag) => {
      now.puts++;
      if (!now.isUp) return { outcome: 'away' };
      if (etag !== now.etag) return { outcome: 'changed', disk: { text: now.text, etag: now.etag } };
      write(next);
      return { outcome: 'saved', etag: now.etag };
    },
  };
  return { now, write, file };
}

function desk(text = base) {
  const there = disk(text);
  let document: TextDocument = openDocument({ text, etag: '"0"' });
  const states: FileState[] = [];
  const keeper: Keeper = fileKeeper({ file: there.file, document: () => document, replace: (next) => { document = next; }, tell: (state) => states.push(state), say: () => undefined });
  const edit = (next: string): void => { document = withText(document, next, 'edit'); keeper.changed(); };
  return { ...there, keeper, edit, states, get document() { return document; }, set document(next) { document = next; }, get state() { return states.at(-1); } };
}

beforeEach(() => { vi.useFakeTimers(); });
afterEach(() => { vi.useRealTimers(); });

describe('saving', () => {
  it('waits for a pause and saves once', async () => {
    const here = desk();
    here.edit('a: 2\nb: 2\nc: 3\n');
    here.edit('a: 20\nb: 2\nc: 3\n');
    await vi.advanceTimersByTimeAsync(1000);
    expect([here.now.text, here.now.puts, here.state]).toEqual(['a: 20\nb: 2\nc: 3\n', 1, { is: 'saved' }]);
  });
  it('goes on when nobody answers, until somebody does', async () => {
    const here = desk();
    here.now.isUp = false;
    here.edit('a: 2\nb: 2\nc: 3\n');
    await vi.advanceTimersByTimeAsync(2000);
    expect(here.state).toEqual({ is: 'away' });
    here.now.isUp = true;
    await vi.advanceTimersByTimeAsync(9000);
    expect([here.now.text, here.state]).toEqual(['a: 2\nb: 2\nc: 3\n', { is: 'saved' }]);
  });
  it('saves what was changed while a save was on its way', async () => {
    const here = desk();
    here.edit('a: 2\nb: 2\nc: 3\n');
    const saving = here.keeper.save();
    here.edit('a: 3\nb: 2\nc: 3\n');
    await saving;
    await vi.advanceTimersByTimeAsync(1000);
    expect([here.now.text, here.now.puts]).toEqual(['a: 3\nb: 2\nc: 3\n', 2]);
  });
});

describe('a change on disk', () => {
  it('is taken in as a step that undo takes back', async () => {
    const here = desk();
    here.write('a: 1\nb: 9\nc: 3\n');
    await here.keeper.heard(here.now.etag);
    expect(here.document.text).toBe('a: 1\nb: 9\nc: 3\n');
    expect(undone(here.document).text).toBe(base);
  });
  it('elsewhere than here is put together, both on screen and on disk', async () => {
    const here = desk();
    here.write('a: 1\nb: 2\nc: 33\n');
    here.edit('a: 11\nb: 2\nc: 3\n');
    await vi.advanceTimersByTimeAsync(2000);
    expect([here.document.text, here.now.text, here.state]).toEqual(['a: 11\nb: 2\nc: 33\n', 'a: 11\nb: 2\nc: 33\n', { is: 'saved' }]);
  });
  it('in the same lines stops saving until it is settled', async () => {
    const here = desk();
    here.write('a: 1\nb: 22\nc: 3\n');
    here.edit('a: 1\nb: 222\nc: 3\n');
    await vi.advanceTimersByTimeAsync(2000);
    expect([here.state?.is, here.document.text, here.now.text]).toEqual(['conflict', 'a: 1\nb: 222\nc: 3\n', 'a: 1\nb: 22\nc: 3\n']);
    here.edit('a: 5\nb: 222\nc: 3\n');
    await vi.advanceTimersByTimeAsync(2000);
    expect(here.now.text).toBe('a: 1\nb: 22\nc: 3\n');
    here.keeper.settle('a: 5\nb: 222\nb: 22\nc: 3\n');
    await vi.advanceTimersByTimeAsync(2000);
    expect([here.now.text, here.state]).toEqual(['a: 5\nb: 222\nb: 22\nc: 3\n', { is: 'saved' }]);
  });
  it('of our own making is no news', async () => {
    const here = desk();
    here.edit('a: 2\nb: 2\nc: 3\n');
    await vi.advanceTimersByTimeAsync(1000);
    await here.keeper.heard(here.now.etag);
    expect(here.document.past.length).toBe(1);
  });
  it('that takes the file away keeps the text, and writes it anew only when asked', async () => {
    const here = desk();
    here.now.etag = '"absent"';
    await here.keeper.heard(undefined);
    here.edit('a: 2\nb: 2\nc: 3\n');
    await vi.advanceTimersByTimeAsync(2000);
    expect([here.state, here.now.puts]).toEqual([{ is: 'gone' }, 0]);
    await here.keeper.save();
    expect(here.state).toEqual({ is: 'saved' });
  });
});
