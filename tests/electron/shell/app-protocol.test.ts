/** The `app:` protocol serves the list and nothing else. */

import fc from 'fast-check';
import { expect, test, vi } from 'vitest';
import { readPageFiles } from '../../../electron/page/page-files.ts';
import { answerAppRequest, registerAppScheme, serveAppProtocol } from '../../../electron/shell/app-protocol.ts';
import { electron } from '../electron-double.ts';
import { hostilePath } from '../page/hostile-paths.ts';
import { makePageFolder } from '../page/page-folder.ts';

vi.mock('electron', () => import('../electron-double.ts'));

const files = readPageFiles(makePageFolder());
const get = (address: string, method = 'GET') => answerAppRequest(files, method, address);

test('the scheme is standard and secure, and does not step around the policy', () => {
  registerAppScheme();
  expect(electron.protocol.schemes).toEqual([
    { scheme: 'app', privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
  ]);
});

test('the page comes with its policy, a file with its exact kind', async () => {
  serveAppProtocol(files);
  const handler = electron.protocol.handlers.get('app');
  const page = handler?.({ method: 'GET', url: 'app://evenrun/' } as Request);
  expect(page?.status).toBe(200);
  expect(page?.headers.get('content-security-policy')).toMatch(
    /^default-src 'none'; script-src 'self'; worker-src 'self'; style-src 'self' 'nonce-/,
  );
  expect(await page?.text()).toContain('csp-nonce');
  const script = get('app://evenrun/assets/main.js');
  expect(script.headers.get('content-type')).toBe('text/javascript; charset=utf-8');
  expect(script.headers.get('x-content-type-options')).toBe('nosniff');
});

test('HEAD has no body, other methods are refused', async () => {
  expect(await get('app://evenrun/', 'HEAD').text()).toBe('');
  expect(get('app://evenrun/', 'POST').status).toBe(405);
});

test.each(['app://other/index.html', 'app://evenrun.evil/index.html', 'app://x@evenrun/index.html'])(
  '%s is not found',
  (address) => expect(get(address).status).toBe(404),
);

test('10,000 hostile paths find nothing but what is on the list', () => {
  fc.assert(
    fc.property(hostilePath, (path) => {
      const address = `app://evenrun${path}`;
      if (get(address).status === 404) return true;
      // The parser may resolve dots before we see them; what is left must name the page or a listed file.
      const resolved = new URL(address).pathname;
      return resolved === '/' || files.has(resolved);
    }),
    { numRuns: 10_000 },
  );
});
