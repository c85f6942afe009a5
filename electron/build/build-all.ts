/** `npm run build`: makes the page, the desktop's two files and the browser's host. */

import { fileURLToPath } from 'node:url';
import { buildIfStale } from './bundles.ts';

const built = await buildIfStale(fileURLToPath(new URL('../..', import.meta.url)), [
  'renderer',
  'main',
  'preload',
  'host',
]);
console.log(built.length === 0 ? 'Nothing to build: all is newer than its sources.' : `Built: ${built.join(', ')}.`);
