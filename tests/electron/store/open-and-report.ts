/** A process of its own that opens a data folder, does what it is told, and prints what came of it as JSON. */

import { execFileSync } from 'node:child_process';
import { randomUUID } from 'node:crypto';
import { chmodSync, readdirSync } from 'node:fs';
import { join } from 'node:path';
import type { CallName, Reply, RequestOf } from '../../../electron/bridge/contract.ts';
import { handedOver } from '../../../electron/output/saved-file.ts';
import { createBackend } from '../../../electron/store/backend.ts';
import { EVERYTHING } from '../../archive-asked.ts';
import { withRequestId } from '../../request-ids.ts';

const [folder = '', task = 'start', count = '0'] = process.argv.slice(2);
const backend = createBackend({
  folder,
  version: '1.2.3',
  clock: () => new Date('2026-03-01T08:00:00Z'),
  random: Math.random,
  host: {
    saveFile: async (...file) => handedOver(...file),
    readyToClose: () => undefined,
  },
  backupAfterMs: null,
});

async function call<Name extends CallName>(name: Name, request: RequestOf<Name>): Promise<Reply<Name>> {
  return (await backend.call(name, request)) as Reply<Name>;
}

async function newHeader(): Promise<string> {
  const made = await call('createHeader', { requestId: randomUUID(), name: 'Child', from: 'blank' });
  if (!made.ok) throw new Error(JSON.stringify(made.problems));
  return made.value.header.id;
}

let revision = 0;
function setNote(headerId: string) {
  const edit = { kind: 'setHeader' as const, set: { note: `${revision} ${'x'.repeat(1500)}` } };
  const steps = [{ action: 'do' as const, stepId: `child-${process.pid}-${revision}-step`, edit }];
  return call('commitSteps', { headerId, baseRevision: revision, steps });
}

async function start() {
  const started = await call('start', {});
  return started.ok ? started.value : started.problems;
}

async function commits() {
  const headerId = await newHeader();
  for (let left = Number(count); left > 0; left -= 1) {
    const reply = await setNote(headerId);
    if (!reply.ok) throw new Error(JSON.stringify(reply.problems));
    revision = reply.value.revision;
  }
  return { acknowledged: revision };
}

/** Commits until there is no more room, then has `grow` make room and goes on. */
async function fill(grow: () => void) {
  const headerId = await newHeader();
  let firstProblem: unknown = null;
  // A failure may be followed by room again, since the log is emptied when the database is reopened.
  for (let failures = 0; failures < 2; ) {
    const reply = await setNote(headerId);
    failures = reply.ok ? 0 : failures + 1;
    if (reply.ok) revision = reply.value.revision;
    else firstProblem ??= reply.problems[0];
  }
  const acknowledged = revision;
  const backup = await call('makeBackup', {});
  const opened = await call('openHeader', { headerId });
  const partials = readdirSync(folder, { recursive: true }).filter((name) => String(name).includes('partial'));
  grow();
  const afterGrowing = await setNote(headerId);
  return {
    firstProblem,
    acknowledged,
    found: opened.ok ? opened.value.revision : opened.problems,
    backup: backup.ok ? null : backup.problems[0],
    partials,
    afterGrowing: afterGrowing.ok,
  };
}

/** Asks everything that reads and everything that writes of a shop with one header, `h`, and one stock item, `s`. */
async function look() {
  const started = await call('start', {});
  const listed = await call('listHeaders', { place: 'bench' });
  const { headerId = '', revision: at = 0 } = listed.ok ? (listed.value.headers[0] ?? {}) : {};
  const stock = await call('listStock', {});
  const [stored] = stock.ok ? stock.value.stock : [];
  const opened = await call('openHeader', { headerId });
  const header = opened.ok ? opened.value.header : null;
  const note = { kind: 'setHeader' as const, set: { note: 'new' } };
  const item = stored ? { ...stored.item, id: 'another' } : null;
  const writes: Readonly<Record<string, unknown>> = {
    commitSteps: { headerId, baseRevision: at, steps: [{ action: 'do', stepId: 'step-of-looking', edit: note }] },
    saveDraft: { headerId, draft: { field: 'quickEntry', text: 'b90' } },
    createHeader: { name: 'New', from: 'blank' },
    duplicateHeader: { headerId, name: 'Twin', as: 'same' },
    importHeader: { header },
    binHeader: { headerId },
    restoreHeader: { headerId },
    savePreferences: { preferences: { theme: 'dark', density: 'desk' } },
    changeShelf: { changes: [{ kind: 'add', item }], because: '' },
    turnShelfBack: { action: 'undo', step: 1 },
  };
  const refused: Record<string, unknown> = {};
  for (const [name, request] of Object.entries(writes)) {
    const reply = await backend.call(name, withRequestId(name as CallName, request as never));
    refused[name] = reply.ok ? 'done' : reply.problems[0];
  }
  return {
    started: started.ok ? started.value : started.problems,
    opened: opened.ok ? opened.value : opened.problems,
    stock: stored,
    archive: await call('searchArchive', EVERYTHING),
    exports: [await call('exportHeader', { headerId }), await call('exportStock', {})],
    refused,
  };
}

/** Looks, has `allow` let the folder be written, starts again, and writes. */
async function lookAndWrite(allow: () => void) {
  const looked = await look();
  const { headerId, revision: at } = await onlyHeader();
  revision = at;
  allow();
  const before = await setNote(headerId);
  const again = await call('start', {});
  const after = await setNote(headerId);
  return {
    looked,
    before: before.ok,
    again: again.ok && again.value.state === 'ready' ? again.value.cannotWrite : again,
    after: after.ok,
  };
}

async function onlyHeader() {
  const listed = await call('listHeaders', { place: 'bench' });
  const [only] = listed.ok ? listed.value.headers : [];
  if (!only) throw new Error(`there is no header: ${JSON.stringify(listed)}`);
  return only;
}

/** Makes one backup after another until it is killed. */
async function backups(): Promise<never> {
  for (;;) {
    const made = await call('makeBackup', {});
    if (!made.ok) throw new Error(JSON.stringify(made.problems));
  }
}

const growDisk = () => execFileSync('mount', ['-o', 'remount,size=16m', folder]);
const liftLimit = () => execFileSync('prlimit', ['--pid', String(process.pid), '--fsize=unlimited']);
const tasks: Readonly<Record<string, () => Promise<unknown>>> = {
  start,
  commits,
  backups,
  look,
  async listBackups() {
    const listed = await call('listBackups', {});
    return listed.ok ? listed.value : listed.problems;
  },
  lookAndAllow: () => lookAndWrite(() => chmodSync(join(folder, 'evenrun.sqlite'), 0o600)),
  lookAndGrow: () => lookAndWrite(growDisk),
  fillDisk: () => fill(growDisk),
  reachLimit: () => fill(liftLimit),
};
process.stdout.write(JSON.stringify(await tasks[task]?.()));
await backend.close();
