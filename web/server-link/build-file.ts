/** The build file as the server gives and takes it. */
import type { OnDisk } from '../document/document.ts';
import { AWAY, whyRefused } from './why-refused.ts';

export type PutAnswer =
  | { readonly outcome: 'saved'; readonly etag: string }
  /** somebody else wrote the file since: this is what it holds */
  | { readonly outcome: 'changed'; readonly disk: OnDisk }
  | { readonly outcome: 'refused'; readonly why: string }
  /** nobody answers */
  | { readonly outcome: 'away' };

/** The only way to the file; tests hand in another. */
export interface BuildFile {
  /** @returns `why` when nobody answers or the file cannot be read; `name` is that of the folder; `hasStudies`: the server can be asked for the first study */
  readonly get: () => Promise<{ readonly disk: OnDisk; readonly name: string; readonly hasStudies?: boolean } | { readonly why: string }>;
  readonly put: (text: string, etag: string) => Promise<PutAnswer>;
}

export const buildFile: BuildFile = {
  get: async () => {
    try {
      const answer = await fetch('/api/build', { cache: 'no-store' });
      if (!answer.ok) return { why: await reasonOf(answer) };
      return { disk: { text: await textOf(answer), etag: etagOf(answer) }, name: decoded(answer.headers.get('X-Build-Name')), hasStudies: answer.headers.has('X-Studies') };
    } catch {
      return { why: AWAY };
    }
  },
  put: async (text, etag) => {
    try {
      const answer = await fetch('/api/build', { method: 'PUT', headers: { 'If-Match': etag, 'Content-Type': 'text/yaml; charset=utf-8' }, body: text });
      if (answer.ok) return { outcome: 'saved', etag: etagOf(answer) };
      if (answer.status === 412) return { outcome: 'changed', disk: { text: await textOf(answer), etag: etagOf(answer) } };
      return { outcome: 'refused', why: await reasonOf(answer) };
    } catch {
      return { outcome: 'away' };
    }
  },
};

const etagOf = (answer: Response): string => answer.headers.get('ETag') ?? '"absent"';

/** A name in a header is sent percent-encoded where it has letters that a header cannot carry. */
function decoded(name: string | null): string {
  try { return decodeURIComponent(name ?? ''); } catch { return name ?? ''; }
}

/** All of it: `Response.text` takes away a mark of byte order, and a saved file would lack it. */
async function textOf(answer: Response): Promise<string> {
  return new TextDecoder('utf-8', { ignoreBOM: true }).decode(await answer.arrayBuffer());
}

async function reasonOf(answer: Response): Promise<string> {
  if (answer.status === 413) return 'the text is longer than a build file may be';
  return whyRefused(answer, 200, answer.status >= 500 ? 'the file cannot be read or written' : undefined);
}
