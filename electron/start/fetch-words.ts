/** Why the runtime could not be fetched, in words for the person at the terminal. */

import { DownloadFailure } from './watched-download.ts';

const NETWORK: Readonly<Record<string, string>> = {
  ENOTFOUND: 'the address is not known here: is this machine connected?',
  EAI_AGAIN: 'the address is not known here: is this machine connected?',
  ENETUNREACH: 'there is no network',
  EHOSTUNREACH: 'there is no way to it through this network',
  ECONNREFUSED: 'the connection was refused',
  ECONNRESET: 'the connection broke off before all had come',
  UND_ERR_SOCKET: 'the connection broke off before all had come',
  UND_ERR_RES_CONTENT_LENGTH_MISMATCH: 'the connection broke off before all had come',
  UND_ERR_CONNECT_TIMEOUT: 'no connection came about',
  ETIMEDOUT: 'no connection came about',
  UND_ERR_ABORTED: 'the proxy did not let it through',
};

const DISK: Readonly<Record<string, string>> = {
  EACCES: 'this account may not write there',
  EPERM: 'this account may not write there',
  EROFS: 'the disk is read-only',
  ENOSPC: 'the disk is full',
};

function codeOf(cause: Error): string | null {
  const { code } = cause as { readonly code?: unknown };
  return typeof code === 'string' ? code : null;
}

/** The cause itself and what it was caused by, outermost first: `fetch` wraps what happened. */
function chain(cause: unknown): readonly Error[] {
  const found: Error[] = [];
  for (let at = cause; at instanceof Error && found.length < 8; at = at.cause) found.push(at);
  return found;
}

function diskWords(cause: Error): string | null {
  const words = DISK[codeOf(cause) ?? ''];
  const { path } = cause as { readonly path?: unknown };
  return words === undefined ? null : `${words} (${typeof path === 'string' ? path : cause.message})`;
}

function wordsForOne(cause: Error): string | null {
  if (cause instanceof DownloadFailure) return cause.message;
  // The names of errors of the package that compares checksums.
  if (cause.constructor.name === 'ChecksumMismatchError')
    return "what came is not what Electron's own list of checksums says, and was thrown away";
  if (cause.constructor.name === 'NoChecksumFoundError') return 'there is no Electron runtime for this system';
  return NETWORK[codeOf(cause) ?? ''] ?? diskWords(cause);
}

/** Half a sentence, without a full stop. Causes that nobody foresaw are told in their own words. */
export function whyNotFetched(cause: unknown): string {
  const causes = chain(cause);
  for (const one of causes) {
    const words = wordsForOne(one);
    if (words !== null) return words;
  }
  const innermost = causes.at(-1);
  return innermost === undefined ? String(cause) : innermost.message.split('\n', 1)[0] || innermost.name;
}
