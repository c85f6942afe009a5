/** Loaded before an editing child: tells under which settings each writing connection ran, just before it closes. */

import Database from 'better-sqlite3';
import { tell } from './protocol.ts';

const WATCHED = ['synchronous', 'journal_mode', 'foreign_keys', 'trusted_schema', 'cell_size_check', 'mmap_size'];
const realClose = Database.prototype.close;

Database.prototype.close = function spied() {
  if (this.open && !this.readonly && !this.memory) {
    const pragmas = WATCHED.map((name) => [name, this.pragma(name, { simple: true })] as const);
    const engine = this.prepare('SELECT sqlite_version()').pluck().get();
    tell({ kind: 'pragmas', values: { ...Object.fromEntries(pragmas), engine } });
  }
  return realClose.call(this);
};
