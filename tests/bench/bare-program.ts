/**
 * The least that a program of this kind can be: opens a database, reads a thousand names from it and serves one static page
 * that lists them. What starting this takes is the machine's own part of every start.
 */

import { createServer } from 'node:http';
import process from 'node:process';
import Database from 'better-sqlite3';

const db = new Database(process.argv[2] ?? ':memory:', { readonly: true });
const names = db.prepare<[], string>('SELECT name FROM names ORDER BY name').pluck().all();
const rows = names.map((name) => `<li class="bare-row">${name}</li>`).join('');
const page = `<!doctype html><title>bare</title><main id="screen"><ul>${rows}</ul></main>`;

const server = createServer((_request, response) => {
  response.writeHead(200, { 'content-type': 'text/html; charset=utf-8' });
  response.end(page);
});
server.listen(0, '127.0.0.1', () => {
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('The server has no port');
  console.log(`http://127.0.0.1:${address.port}/#token=none`);
});
process.once('SIGTERM', () => {
  server.closeAllConnections();
  server.close();
  db.close();
});
