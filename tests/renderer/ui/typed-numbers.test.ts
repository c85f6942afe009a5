/** Which languages write a decimal comma, whatever the system calls them. */

import { expect, test } from 'vitest';
import { writesDecimalComma } from '../../../renderer/ui/fields/typed-numbers.ts';

// Source of the separators: Unicode CLDR, which the runtime carries.
test.each([
  ['en-US', false],
  ['en-GB', false],
  ['ja-JP', false],
  ['de-DE', true],
  ['fr-FR', true],
  ['pt-BR', true],
  ['de_DE.UTF-8', true],
  ['en-US@posix', false],
  ['C', false],
  ['', false],
])('%s: %s', (language, isComma) => {
  expect(writesDecimalComma(language)).toBe(isComma);
});
