/** The policy under which the page runs, the same in both hosts. */

import { randomBytes } from 'node:crypto';

/**
 * The Content-Security-Policy of one load of the page.
 * No inline script, no eval, nothing from elsewhere; the nonce lets in the one `<style>` that react-aria-components
 * puts into the document, and nothing else.
 */
export function contentSecurityPolicy(nonce: string): string {
  return [
    "default-src 'none'",
    "script-src 'self'",
    "worker-src 'self'",
    `style-src 'self' 'nonce-${nonce}'`,
    "img-src 'self' data:",
    "font-src 'self'",
    "connect-src 'self'",
    "base-uri 'none'",
    "form-action 'none'",
    "frame-ancestors 'none'",
    "require-trusted-types-for 'script'",
  ].join('; ');
}

/**
 * The policy of a worker, which takes none from its page: what comes with its own script holds. It may load modules of the page and
 * nothing else, and reach nobody. On scripts that are no worker it has no effect.
 */
export const WORKER_POLICY = "default-src 'none'; script-src 'self'; require-trusted-types-for 'script'";

/** Never used twice: 128 random bits in base64. */
export function freshNonce(): string {
  return randomBytes(16).toString('base64');
}

/** The page with the nonce where react-aria-components looks for it. Throws on a page without a head: a defect of the build. */
export function withNonce(html: string, nonce: string): string {
  const head = /<head\b[^>]*>/i.exec(html);
  if (head === null) throw new Error('The built page has no <head>');
  const place = head.index + head[0].length;
  return `${html.slice(0, place)}<meta property="csp-nonce" nonce="${nonce}">${html.slice(place)}`;
}
