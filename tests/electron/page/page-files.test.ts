/** What both hosts serve of the built page, and what they never do. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { contentSecurityPolicy, WORKER_POLICY, withNonce } from '../../../electron/page/content-security.ts';
import { answerForPage, readPageFiles } from '../../../electron/page/page-files.ts';
import { hostilePath } from './hostile-paths.ts';
import { makePageFolder } from './page-folder.ts';

const files = readPageFiles(makePageFolder());

test('the list holds the built files and neither links nor unknown kinds', () => {
  expect([...files.keys()].sort()).toEqual([
    '/assets/letters.woff2',
    '/assets/look.css',
    '/assets/main.js',
    '/index.html',
  ]);
});

test('a folder without a page is refused at start', () => {
  expect(() => readPageFiles(`${makePageFolder()}/assets`)).toThrow('No built page');
});

test.each([
  ['/', 'text/html; charset=utf-8'],
  ['/index.html', 'text/html; charset=utf-8'],
  ['/assets/main.js', 'text/javascript; charset=utf-8'],
  ['/assets/look.css', 'text/css; charset=utf-8'],
  ['/assets/letters.woff2', 'font/woff2'],
])('%s is served as %s, never sniffed, never stored', (path, contentType) => {
  const { status, headers } = answerForPage(files, 'GET', path);
  expect(status).toBe(200);
  expect(headers).toMatchObject({
    'content-type': contentType,
    'x-content-type-options': 'nosniff',
    'cache-control': 'no-store',
  });
});

test('each load of the page has the policy with a nonce of its own, in header and page alike', () => {
  const nonces = [1, 2].map(() => {
    const { headers, body } = answerForPage(files, 'GET', '/');
    const nonce = /<meta property="csp-nonce" nonce="([^"]+)">/.exec(body.toString())?.[1] ?? '';
    expect(headers['content-security-policy']).toBe(contentSecurityPolicy(nonce));
    expect(Buffer.from(nonce, 'base64')).toHaveLength(16);
    return nonce;
  });
  expect(nonces[0]).not.toBe(nonces[1]);
});

test('the policy is the strict one, word for word', () => {
  expect(contentSecurityPolicy('R')).toBe(
    "default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self' 'nonce-R'; img-src 'self' data:; font-src 'self'; connect-src 'self'; base-uri 'none'; form-action 'none'; frame-ancestors 'none'; require-trusted-types-for 'script'",
  );
});

test('a script brings the policy that holds when it is run as a worker: nobody can be reached from there', () => {
  const { headers } = answerForPage(files, 'GET', '/assets/main.js');
  expect(headers['content-security-policy']).toBe(WORKER_POLICY);
  expect(WORKER_POLICY).toBe("default-src 'none'; script-src 'self'; require-trusted-types-for 'script'");
  expect(answerForPage(files, 'GET', '/assets/look.css').headers).not.toHaveProperty('content-security-policy');
});

test('the nonce stands first in the head, also when the head has attributes', () => {
  expect(withNonce('<head class="a"><title></title></head>', 'R')).toBe(
    '<head class="a"><meta property="csp-nonce" nonce="R"><title></title></head>',
  );
  expect(() => withNonce('<body></body>', 'R')).toThrow('no <head>');
});

test.each(['POST', 'PUT', 'DELETE', 'PATCH', 'OPTIONS', 'TRACE', 'CONNECT', ''])(
  '%s is not a way to get a file',
  (method) => {
    expect(answerForPage(files, method, '/').status).toBe(405);
  },
);

test('10,000 hostile paths find nothing', () => {
  fc.assert(
    fc.property(hostilePath, (path) => answerForPage(files, 'GET', path).status === 404),
    { numRuns: 10_000 },
  );
});
