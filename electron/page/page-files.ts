/** The built page as both hosts serve it: a list of files made at start, and nothing that is not on it. */

import { readdirSync, readFileSync } from 'node:fs';
import { join, posix } from 'node:path';
import { contentSecurityPolicy, freshNonce, WORKER_POLICY, withNonce } from './content-security.ts';

/** Only these kinds of file leave the page's folder. */
const CONTENT_TYPES: Readonly<Record<string, string>> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.svg': 'image/svg+xml',
  '.png': 'image/png',
  '.woff2': 'font/woff2',
  '.json': 'application/json; charset=utf-8',
  '.txt': 'text/plain; charset=utf-8',
};

export interface PageFile {
  readonly contentType: string;
  readonly bytes: Buffer<ArrayBuffer>;
}

/** By path as it stands in an address: `/index.html`, `/assets/main-x.js`. */
export type PageFiles = ReadonlyMap<string, PageFile>;

export interface PageAnswer {
  readonly status: 200 | 404 | 405;
  readonly headers: Readonly<Record<string, string>>;
  readonly body: Buffer<ArrayBuffer>;
}

const COMMON_HEADERS = {
  'cache-control': 'no-store',
  'x-content-type-options': 'nosniff',
  'referrer-policy': 'no-referrer',
  'cross-origin-opener-policy': 'same-origin',
  'cross-origin-resource-policy': 'same-origin',
} as const;

/**
 * Reads every regular file below the folder whose kind is known; links are not followed. The page is a few megabytes, so it is held
 * in memory: what is not on the list cannot be reached by any path, and a rebuild meanwhile cannot tear a running page.
 */
export function readPageFiles(folder: string): PageFiles {
  const files = new Map<string, PageFile>();
  const readFolder = (relative: string): void => {
    for (const entry of readdirSync(join(folder, relative), { withFileTypes: true })) {
      const path = posix.join(relative, entry.name);
      if (entry.isDirectory()) readFolder(path);
      const contentType = CONTENT_TYPES[posix.extname(entry.name)];
      if (!entry.isFile() || contentType === undefined) continue;
      files.set(path, { contentType, bytes: readFileSync(join(folder, path)) });
    }
  };
  readFolder('/');
  if (!files.has('/index.html')) throw new Error(`No built page in ${folder}`);
  return files;
}

function refusal(status: 404 | 405, extra: Readonly<Record<string, string>> = {}): PageAnswer {
  const headers = { ...COMMON_HEADERS, 'content-type': 'text/plain; charset=utf-8', ...extra };
  return { status, headers, body: Buffer.from(status === 404 ? 'Not found' : 'Method not allowed') };
}

/**
 * What to answer to a request for a file of the page.
 * `pathname` is compared as it came, never decoded: built names are plain ASCII, so any escape is a stranger.
 */
export function answerForPage(files: PageFiles, method: string, pathname: string): PageAnswer {
  if (method !== 'GET' && method !== 'HEAD') return refusal(405, { allow: 'GET, HEAD' });
  const file = files.get(pathname === '/' ? '/index.html' : pathname);
  if (file === undefined) return refusal(404);
  const headers = { ...COMMON_HEADERS, 'content-type': file.contentType };
  if (file.contentType.startsWith('text/javascript')) {
    return { status: 200, headers: { ...headers, 'content-security-policy': WORKER_POLICY }, body: file.bytes };
  }
  if (!file.contentType.startsWith('text/html')) return { status: 200, headers, body: file.bytes };
  const nonce = freshNonce();
  return {
    status: 200,
    headers: { ...headers, 'content-security-policy': contentSecurityPolicy(nonce) },
    body: Buffer.from(withNonce(file.bytes.toString('utf8'), nonce)),
  };
}
