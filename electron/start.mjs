/** What `npm start` runs first: says plainly when the Node it was given cannot run the program. Plain JavaScript, so that any Node can. */

const wanted = 24;
const found = Number(process.versions.node.split('.')[0]);
if (found < wanted) {
  console.error(`Evenrun wants Node ${wanted} or newer, and this is Node ${process.versions.node}.`);
  console.error('`npm ci` brings the right one along; run it, then start with `npm start` so that npm finds it.');
  process.exit(1);
}
await import('./start.ts');
