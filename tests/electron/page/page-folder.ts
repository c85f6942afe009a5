/** A small built page on disk, for tests of what serves it. */

import { mkdirSync, symlinkSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { temporaryFolder } from '../../temporary-folder.ts';

export const PAGE_HTML =
  '<!doctype html><html lang="en"><head><title>Page</title><script type="module" src="/assets/main.js"></script></head><body></body></html>';

/** Makes `dist/` with a page, and beside it a secret that must never be served. Returns the page's folder. */
export function makePageFolder(script = 'document.title = "ran";'): string {
  const outer = temporaryFolder('page');
  writeFileSync(join(outer, 'secret.txt'), 'secret');
  const page = join(outer, 'page');
  mkdirSync(join(page, 'assets'), { recursive: true });
  writeFileSync(join(page, 'index.html'), PAGE_HTML);
  writeFileSync(join(page, 'assets', 'main.js'), script);
  writeFileSync(join(page, 'assets', 'look.css'), 'body { color: black; }');
  writeFileSync(join(page, 'assets', 'letters.woff2'), 'wOF2');
  writeFileSync(join(page, 'assets', 'source.map'), 'not to be served');
  symlinkSync(join(outer, 'secret.txt'), join(page, 'assets', 'link.txt'));
  return page;
}
