/** The page's own address is told from every other. */

import fc from 'fast-check';
import { expect, test } from 'vitest';
import { isOwnAddress } from '../../../electron/shell/app-address.ts';
import { hostileAddress } from './hostile-addresses.ts';

test.each(['app://evenrun/', 'app://evenrun/index.html', 'app://evenrun/?a=b#c', 'app://evenrun/a/../b'])(
  '%s is ours',
  (address) => expect(isOwnAddress(address)).toBe(true),
);

test.each([
  'app://evenrun',
  'app://evenrun.example/',
  'app://evenrun:80/',
  'app://x@evenrun/',
  'app://evenrun@evil/',
  'app://evenrun\\@evil/',
  'app:evenrun/',
  'app:///evenrun/',
  'APP://evenrun/',
  'app://Evenrun/',
  'app://ｅvenrun/',
  ' app://evenrun/',
  'xapp://evenrun/',
  'about:blank',
  'null',
  '',
])('%s is not ours', (address) => expect(isOwnAddress(address)).toBe(false));

test('none of 10,000 hostile addresses is ours', () => {
  fc.assert(
    fc.property(hostileAddress, (address) => !isOwnAddress(address)),
    { numRuns: 10_000 },
  );
});
