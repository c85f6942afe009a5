/** Writes down what a page does that it must not: policy violations, foreign requests, errors. */

import type { Page } from 'playwright-core';

/** What must stay empty in every end-to-end test. */
export interface Faults {
  readonly policyViolations: string[];
  readonly foreignRequests: string[];
  readonly pageErrors: string[];
}

function isForeign(url: string, own: string): boolean {
  return !url.startsWith(own) && !url.startsWith('data:') && !url.startsWith('blob:') && url !== 'about:blank';
}

/** From the next loading of the page on; `origin` is the page's own. */
export async function watchFaults(page: Page, origin: string): Promise<Faults> {
  const faults: Faults = { policyViolations: [], foreignRequests: [], pageErrors: [] };
  page.on('request', (request) => {
    if (isForeign(request.url(), origin)) faults.foreignRequests.push(request.url());
  });
  page.on('pageerror', (error) => faults.pageErrors.push(error.stack ?? error.message));
  await page.exposeBinding('tellViolation', (_source, words: string) => faults.policyViolations.push(words));
  await page.addInitScript(() => {
    document.addEventListener('securitypolicyviolation', (event) => {
      const told = globalThis as unknown as { tellViolation: (words: string) => void };
      told.tellViolation(`${event.effectiveDirective} ${event.blockedURI} ${event.sourceFile}:${event.lineNumber}`);
    });
  });
  return faults;
}
