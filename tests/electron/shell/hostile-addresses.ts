/** Addresses that are not the page's, from far off to very alike. */

import fc from 'fast-check';

const SCHEME = fc.constantFrom(
  'https:',
  'file:',
  'javascript:',
  'data:text/html,',
  'blob:',
  'about:',
  'ws:',
  'vbscript:',
  'chrome:',
  'devtools:',
  'filesystem:',
  'app:',
  'APP:',
  'view-source:app:',
);
const HOST = fc.constantFrom(
  'evil.example',
  'evenrun.example',
  'evenrun.',
  'evenrun.evil',
  'xevenrun',
  'evenrun@evil',
  'user@evenrun',
  'user:word@evenrun',
  'evenrun:8080',
  'evenrun%2f@evil',
  'evenrun\\evil',
  'ｅｖｅｎｒｕｎ',
  'evenrun\u200b',
  'еvenrun',
  'EVENRUN',
  '127.0.0.1',
  '[::1]',
  '',
);
const SLASHES = fc.constantFrom('', '/', '//', '///', '\\\\', '/\\', '%2f%2f');

const built = fc
  .tuple(fc.constantFrom('', ' ', '\t', '\u0000'), SCHEME, SLASHES, HOST, fc.webPath())
  .map(([lead, scheme, slashes, host, path]) => `${lead}${scheme}${slashes}${host}${path === '' ? '/' : path}`);

/** Never begins with the page's own address; whatever it looks like, it is elsewhere. */
export const hostileAddress: fc.Arbitrary<string> = fc.oneof(
  { weight: 6, arbitrary: built },
  { weight: 1, arbitrary: fc.webUrl() },
  { weight: 1, arbitrary: fc.string({ unit: 'binary' }) },
);
