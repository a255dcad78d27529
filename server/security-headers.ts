/** What every answer tells the browser: nothing from elsewhere, nothing inline, no frame, no guessing of types. */

const policy: Readonly<Record<string, string>> = {
  'default-src': "'none'", 'script-src': "'self'", 'style-src': "'self'", 'img-src': "'self' data: blob:", 'font-src': "'self'", 'connect-src': "'self'",
  'worker-src': "'self'", 'base-uri': "'none'", 'form-action': "'none'", 'frame-ancestors': "'none'",
};

/** The policy of the workbench. @param nonce  of the style elements that the text editor and the controls put in */
export function contentPolicy(nonce?: string): string {
  const styles = nonce === undefined ? {} : { 'style-src': `'self' 'nonce-${nonce}'` };
  return Object.entries({ ...policy, ...styles }).map(([what, from]) => `${what} ${from}`).join('; ');
}

/** The policy of a file of the build folder, which is never part of the workbench: whatever it is, nothing in it runs. */
export const filePolicy = "default-src 'none'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; sandbox";

/** Set on every answer; the policy and the keeping only where the answer has not said otherwise. */
export function withSecurityHeaders(headers: Headers): void {
  if (!headers.has('Content-Security-Policy')) headers.set('Content-Security-Policy', contentPolicy());
  if (!headers.get('Cache-Control')?.includes('immutable')) headers.set('Cache-Control', 'no-store');
  headers.set('X-Content-Type-Options', 'nosniff');
  headers.set('Referrer-Policy', 'no-referrer');
  headers.set('Cross-Origin-Opener-Policy', 'same-origin');
  headers.set('Cross-Origin-Resource-Policy', 'same-origin');
}
