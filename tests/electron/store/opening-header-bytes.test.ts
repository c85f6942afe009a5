/** Every byte of a database's header, damaged in many ways: what is refused leads to the backups, what is opened is whole. */

import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { backupName } from '../../../electron/store/backups/backups.ts';
import {
  addPrimary,
  hashOf,
  headerWith,
  openShop,
  type Shop,
  straight,
  temporaryFolder,
  withDatabase,
} from './shop.ts';

const HEADER_BYTES = 100;
const BACKUP = backupName({ number: 1, kind: 'daily', at: new Date('2026-02-28T08:00:00Z') });

/** A database of one header, closed, in one file; and a backup of it. */
interface Made {
  readonly sound: Buffer;
  readonly backup: Buffer;
}

let made: Made | null = null;
/** Made once, by the test that comes first. */
async function database(): Promise<Made> {
  if (made !== null) return made;
  const shop = openShop();
  await headerWith(shop, [addPrimary('a', [straight('s')])]);
  const { name } = await shop.must('makeBackup', {});
  await shop.close();
  made = { sound: readFileSync(shop.file), backup: readFileSync(join(shop.folder, 'backups', name)) };
  return made;
}

/** A shop on these bytes, with a sound backup beside them. */
async function shopOn(bytes: Uint8Array): Promise<Shop> {
  const { backup } = await database();
  const folder = temporaryFolder({ fast: true });
  mkdirSync(join(folder, 'backups'));
  writeFileSync(join(folder, 'backups', BACKUP), backup);
  writeFileSync(join(folder, 'evenrun.sqlite'), bytes);
  return openShop(folder);
}

/** Opens it as the page does. Either all of the header is there, or the screen offers the backup and the file is as it was. */
async function openedOrOffered(bytes: Uint8Array): Promise<string> {
  const shop = await shopOn(bytes);
  const before = hashOf(shop.file);
  const start = await shop.must('start', {});
  const listed = await shop.call('listHeaders', { place: 'bench' });
  const refused = hashOf(shop.file);
  const restored = start.state === 'ready' ? null : await shop.call('restoreBackup', { name: BACKUP });
  const after = hashOf(shop.file);
  await shop.close();
  if (start.state === 'ready') {
    const isWhole = listed.ok && listed.value.headers[0]?.name === 'Bench four' && start.cannotWrite === null;
    return isWhole ? 'opened' : `opened, but ${JSON.stringify([start, listed])}`;
  }
  if (listed.ok || listed.problems[0]?.kind !== 'storage') return `asked after, it says ${JSON.stringify(listed)}`;
  if (refused !== before) return 'the refused file was written to';
  if (start.problem.kind !== 'storage') return `refused with ${JSON.stringify(start.problem)}`;
  if (!start.backups.some(({ name }) => name === BACKUP)) return 'the backup is not offered';
  if (!restored?.ok || restored.value.state !== 'ready') return `not restored: ${JSON.stringify(restored)}`;
  return before === after ? 'nothing came in its place' : start.problem.fault;
}

const WAYS: readonly (readonly [name: string, damage: (byte: number) => number])[] = [
  ['nought', () => 0],
  ['1', () => 1],
  ['3', () => 3],
  ['255', () => 255],
  ['its lowest bit turned', (byte) => byte ^ 1],
  ['its highest bit turned', (byte) => byte ^ 128],
  ['one more', (byte) => (byte + 1) & 255],
];

describe.each(WAYS)('a byte that is %s', (_name, damage) => {
  test('ends in the whole database, or in the backups', { timeout: 240_000 }, async () => {
    const { sound } = await database();
    const outcomes = new Map<string, number[]>();
    for (let at = 0; at < HEADER_BYTES; at += 1) {
      const bytes = Buffer.from(sound);
      bytes[at] = damage(bytes[at] ?? 0);
      const outcome = await openedOrOffered(bytes);
      outcomes.set(outcome, [...(outcomes.get(outcome) ?? []), at]);
    }
    const known = ['opened', 'corrupt', 'notOurs', 'newerVersion'];
    expect([...outcomes].filter(([outcome]) => !known.includes(outcome))).toEqual([]);
    // Some of the bytes mean nothing here, and some must matter.
    expect(outcomes.get('opened')?.length).toBeGreaterThan(20);
    expect(HEADER_BYTES - (outcomes.get('opened')?.length ?? 0)).toBeGreaterThan(10);
  });
});

describe('a version number that no file of ours has', () => {
  test.each([0, 3, -1, 2 ** 31 - 1, -(2 ** 31)])('%i', async (version) => {
    const folder = temporaryFolder();
    const file = join(folder, 'evenrun.sqlite');
    writeFileSync(file, (await database()).sound);
    withDatabase(file, (db) => db.pragma(`user_version = ${version}`));
    expect(await openedOrOffered(readFileSync(file))).toMatch(/^(?:corrupt|newerVersion)$/);
  });
});

test.each([1, 5, 99])('another program with our mark and version %i leads to the backups', async (version) => {
  const file = join(temporaryFolder(), 'other.sqlite');
  withDatabase(file, (db) => {
    db.exec('CREATE TABLE recipes (name TEXT); CREATE TABLE headers (id TEXT)');
    db.pragma(`application_id = ${0x4576_726e}`);
    db.pragma(`user_version = ${version}`);
  });
  expect(await openedOrOffered(readFileSync(file))).toMatch(/^(?:corrupt|newerVersion)$/);
});
