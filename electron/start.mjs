/** What `npm start` runs first: says plainly when the Node it was given cannot run the program. Plain JavaScript, so that any Node can. */

import module from 'node:module';
import { fileURLToPath } from 'node:url';

const wanted = 24;
const found = Number(process.versions.node.split('.')[0]);
if (found < wanted) {
  console.error(`Evenrun wants Node ${wanted} or newer, and this is Node ${process.versions.node}.`);
  console.error('`npm ci` brings the right one along; run it, then start with `npm start` so that npm finds it.');
  process.exit(1);
}
// Reading and compiling its own code is most of a start; what was compiled is kept beside the packages from one to the next.
module.enableCompileCache(fileURLToPath(new URL('../node_modules/.cache/evenrun/compiled', import.meta.url)));
await import('./start.ts');
