/** The `app:` protocol: the page comes from a list of built files, never from a path. */

import { protocol } from 'electron';
import { answerForPage, type PageFiles } from '../page/page-files.ts';
import { APP_SCHEME, isOwnAddress } from './app-address.ts';

/** Must run before the app is ready. No `bypassCSP`, no service workers. */
export function registerAppScheme(): void {
  protocol.registerSchemesAsPrivileged([
    // With a code cache what the page compiled is there at the next start.
    { scheme: APP_SCHEME, privileges: { standard: true, secure: true, supportFetchAPI: true, codeCache: true } },
  ]);
}

/** What to answer to a request made over the protocol. */
export function answerAppRequest(files: PageFiles, method: string, address: string): Response {
  const path = isOwnAddress(address) ? new URL(address).pathname : '/not-ours';
  const { status, headers, body } = answerForPage(files, method, path);
  return new Response(method === 'HEAD' ? null : body, { status, headers });
}

/** Must run once the app is ready. */
export function serveAppProtocol(files: PageFiles): void {
  protocol.handle(APP_SCHEME, (request) => answerAppRequest(files, request.method, request.url));
}
