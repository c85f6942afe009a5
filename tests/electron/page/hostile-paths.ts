/** Paths that try to leave the page's folder, in every spelling known. */

import fc from 'fast-check';

const UP = fc.constantFrom(
  '..',
  '%2e%2e',
  '%2E.',
  '.%2e',
  '%252e%252e',
  '..%00',
  '%c0%ae%c0%ae',
  '．．',
  '....',
  '. .',
);
const SLASH = fc.constantFrom('/', '\\', '%2f', '%2F', '%5c', '%252f', '//', '/./', '%c0%af', '／');
const END = fc.constantFrom(
  'secret.txt',
  'etc/passwd',
  'index.html%00',
  'index.html/',
  'C:/Windows/win.ini',
  'C%3a%5cboot.ini',
  'link.txt',
  'assets/link.txt',
  'assets/source.map',
  'assets',
  'package.json',
  '\u0000',
  'a'.repeat(9000),
);

/** A path that begins with a slash and asks for something that is not on the list. */
export const hostilePath: fc.Arbitrary<string> = fc
  .tuple(fc.constantFrom('', 'assets', 'index.html'), fc.array(fc.tuple(SLASH, UP), { maxLength: 8 }), SLASH, END)
  .map(([first, steps, slash, end]) => `/${first}${steps.map(([a, b]) => a + b).join('')}${slash}${end}`);
