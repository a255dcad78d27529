/** First characters of the SHA-256 of a text, as `halfshaft sheet` prints them; — where the browser computes none (an address that is not local). */
export async function revisionOf(text: string): Promise<string> {
  if (!globalThis.isSecureContext) return '—';
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', new TextEncoder().encode(text)));
  return [...hash.slice(0, 4)].map((byte) => byte.toString(16).padStart(2, '0')).join('');
}
