/** What the server tells about the file on disk, as long as the page is open. */
export interface FileEvents {
  /** the file holds a text with this etag; also said when the connection is made again */
  readonly onChanged: (etag: string) => void;
  readonly onGone: () => void;
  readonly onLink: (isUp: boolean) => void;
}

/** @returns ends it */
export function followFile({ onChanged, onGone, onLink }: FileEvents): () => void {
  const events = new EventSource('/api/events');
  const etagIn = (event: Event): string => String((JSON.parse((event as MessageEvent<string>).data) as { readonly etag?: unknown }).etag ?? '');
  events.addEventListener('hello', (event) => { onLink(true); onChanged(etagIn(event)); });
  events.addEventListener('changed', (event) => onChanged(etagIn(event)));
  events.addEventListener('gone', () => onGone());
  events.addEventListener('error', () => onLink(false));
  return () => events.close();
}
