/**
 * Loaded before an editing child: makes better-sqlite3 run at synchronous=NORMAL while it claims FULL.
 * A power-cut test that does not fail under this would prove nothing.
 */

import Database from 'better-sqlite3';

const realPragma = Database.prototype.pragma;
const realExec = Database.prototype.exec;
const SETS_SYNCHRONOUS = /synchronous\s*=\s*(FULL|EXTRA|[23])/gi;

Database.prototype.pragma = function sabotaged(source, options) {
  if (/^\s*synchronous\s*$/i.test(source)) return options?.simple === true ? 2 : [{ synchronous: 2 }];
  return realPragma.call(this, source.replace(SETS_SYNCHRONOUS, 'synchronous = NORMAL'), options);
};
Database.prototype.exec = function sabotaged(source) {
  return realExec.call(this, source.replace(SETS_SYNCHRONOUS, 'synchronous = NORMAL'));
};
