/** Backups that are made by themselves: hourly and at closing, when something was entered; and what is left of ten days of them. */

import { copyFileSync, mkdirSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { HOUR_MS, type Timers } from '../../../electron/store/backups/backup-hours.ts';
import { type Backup, listBackups } from '../../../electron/store/backups/backups.ts';
import { dataFolder } from '../../../electron/store/file/data-folder.ts';
import { doStep, headerWith, openShop, type Shop, temporaryFolder } from './shop.ts';

const FIRST_AFTER_MS = 3000;

/** A clock that stands still until it is told to go on; whatever is due on the way is done, and waited for. */
class TestTime implements Timers {
  nowMs: number;
  #due: { readonly atMs: number; readonly act: () => void } | null = null;
  /** How often a timer was set: the hours set the next one when the one before is through. */
  #set = 0;
  constructor(iso: string) {
    this.nowMs = Date.parse(iso);
  }
  set(act: () => void, afterMs: number): unknown {
    this.#due = { atMs: this.nowMs + afterMs, act };
    this.#set += 1;
    return this.#set;
  }
  clear(): void {
    this.#due = null;
  }
  get isWaiting(): boolean {
    return this.#due !== null;
  }
  async goOnTo(shop: Shop, untilMs: number): Promise<void> {
    while (this.#due !== null && this.#due.atMs <= untilMs) {
      const { atMs, act } = this.#due;
      const before = this.#set;
      this.nowMs = atMs;
      shop.setClock(new Date(atMs).toISOString());
      this.#due = null;
      act();
      while (this.#set === before) await new Promise((resolve) => setTimeout(resolve, 1));
    }
    this.nowMs = untilMs;
    shop.setClock(new Date(untilMs).toISOString());
  }
}

function shopAt(time: TestTime, folder: string): Shop {
  const shop = openShop(folder, {
    backupAfterMs: FIRST_AFTER_MS,
    timers: { set: (act, afterMs) => time.set(act, afterMs), clear: () => time.clear() },
  });
  shop.setClock(new Date(time.nowMs).toISOString());
  return shop;
}

/** Ten days at the bench: a note at twenty past each hour from 8 to 16, the last at a quarter past 17. */
const DAYS = 10;
const LAST_DAY = '2026-03-10';
const HOURS = [8, 9, 10, 11, 12, 13, 14, 15, 16];

async function writeNote(shop: Shop, headerId: string, note: string): Promise<void> {
  const { revision } = await shop.must('readRevision', { headerId });
  const steps = [doStep({ kind: 'setHeader', set: { note } })];
  await shop.must('commitSteps', { headerId, baseRevision: revision, steps });
}

function at(day: number, hour: number, minute: number): number {
  return Date.parse('2026-03-01T00:00:00Z') + day * 24 * HOUR_MS + hour * HOUR_MS + minute * 60_000;
}

async function workADay(time: TestTime, shop: Shop, { headerId, day }: { headerId: string; day: number }) {
  for (const hour of HOURS) {
    await time.goOnTo(shop, at(day, hour, 20));
    await writeNote(shop, headerId, `day ${day} at ${hour}`);
  }
  await time.goOnTo(shop, at(day, 17, 15));
  await writeNote(shop, headerId, `day ${day}, last`);
}

/** What the header's note was when the backup was made. */
async function noteIn(folder: string, { name }: Backup): Promise<string> {
  const alone = openShop(temporaryFolder({ fast: true }));
  copyFileSync(join(folder, 'backups', name), alone.file);
  const { headers } = await alone.must('listHeaders', { place: 'bench' });
  const opened = await alone.must('openHeader', { headerId: headers[0]?.headerId ?? '' });
  await alone.close();
  return opened.header.note;
}

const labels = (backups: readonly Backup[]) => backups.map(({ kind, takenAt }) => `${kind} ${takenAt.slice(5, 16)}`);
const daysOf = (backups: readonly Backup[]) => backups.map(({ takenAt }) => takenAt.slice(0, 10));
const LAST_EIGHT_DAYS = [10, 9, 8, 7, 6, 5, 4, 3].map((day) => `2026-03-${String(day).padStart(2, '0')}`);

describe('ten days at the bench', () => {
  test('started each morning, closed each evening: a backup of each of the last 8 days, and the last 10 of all', {
    timeout: 120_000,
  }, async () => {
    const folder = temporaryFolder({ fast: true });
    let headerId = '';
    for (let day = 0; day < DAYS; day += 1) {
      const time = new TestTime(new Date(at(day, 8, 0)).toISOString());
      const shop = shopAt(time, folder);
      const started = await shop.must('start', {});
      if (day === 0) headerId = (await headerWith(shop, [])).header.id;
      else expect(started).toMatchObject({ state: 'ready', lastHeaderId: headerId });
      await workADay(time, shop, { headerId, day });
      await time.goOnTo(shop, at(day, 17, 30));
      await shop.close();
      expect(time.isWaiting).toBe(false);
    }
    const backups = listBackups(dataFolder(folder));
    expect(daysOf(backups.filter(({ kind }) => kind === 'daily'))).toEqual(LAST_EIGHT_DAYS);
    const recent = backups.filter(({ kind }) => kind === 'recent');
    // The newest was made at closing, those before it by the hour.
    expect(labels(recent)).toEqual([
      'recent 03-10T17:30',
      ...[17, 16, 15, 14, 13, 12, 11, 10].map((hour) => `recent 03-10T${hour}:00`),
      'recent 03-09T17:30',
    ]);
    expect(await noteIn(folder, recent[0] as Backup)).toBe('day 9, last');
    expect(await noteIn(folder, recent[1] as Backup)).toBe('day 9 at 16');
    expect(await noteIn(folder, backups.filter(({ kind }) => kind === 'daily')[7] as Backup)).toBe('day 2 at 8');
  });

  test('never closed: the hours go on, night and day, and make no backup where nothing was entered', {
    timeout: 120_000,
  }, async () => {
    const folder = temporaryFolder({ fast: true });
    const time = new TestTime('2026-03-01T08:00:00Z');
    const shop = shopAt(time, folder);
    await shop.must('start', {});
    const { header } = await headerWith(shop, []);
    for (let day = 0; day < DAYS; day += 1) await workADay(time, shop, { headerId: header.id, day });
    await time.goOnTo(shop, at(DAYS, 7, 0));
    const before = listBackups(dataFolder(folder));
    expect(daysOf(before.filter(({ kind }) => kind === 'daily'))).toEqual(LAST_EIGHT_DAYS);
    expect(before[0]?.takenAt).toBe(`${LAST_DAY}T18:00:03Z`);
    // Nothing since: neither three more days nor the closing make one.
    await time.goOnTo(shop, at(DAYS + 3, 7, 0));
    await shop.close();
    expect(listBackups(dataFolder(folder))).toEqual(before);
  });
});

test('a start with nothing entered since the last backup makes none, nor does opening, looking or a draft', async () => {
  const folder = temporaryFolder({ fast: true });
  const time = new TestTime('2026-03-01T08:00:00Z');
  const first = shopAt(time, folder);
  await first.must('start', {});
  const { header } = await headerWith(first, []);
  await first.close();
  const made = listBackups(dataFolder(folder));
  expect(made).toHaveLength(1);
  for (let day = 1; day < 4; day += 1) {
    const shop = shopAt(time, folder);
    await shop.must('start', {});
    await shop.must('openHeader', { headerId: header.id });
    await shop.must('saveDraft', { headerId: header.id, draft: { field: 'quickEntry', text: `b${day}` } });
    await time.goOnTo(shop, at(day, 8, 0));
    await shop.close();
  }
  expect(listBackups(dataFolder(folder))).toEqual(made);
});

test('a backup that fails is tried again the hour after', async () => {
  const folder = temporaryFolder({ fast: true });
  const time = new TestTime('2026-03-01T08:00:00Z');
  const shop = shopAt(time, folder);
  await shop.must('start', {});
  await headerWith(shop, []);
  writeFileSync(join(folder, 'backups'), 'in the way');
  await time.goOnTo(shop, at(0, 9, 30));
  rmSync(join(folder, 'backups'));
  mkdirSync(join(folder, 'backups'));
  await time.goOnTo(shop, at(0, 10, 30));
  expect(labels(listBackups(dataFolder(folder)))).toEqual(['daily 03-01T10:00']);
});

test('a database that was never opened, or could not be, is not backed up at closing, and closing ends', async () => {
  const time = new TestTime('2026-03-01T08:00:00Z');
  const never = shopAt(time, temporaryFolder({ fast: true }));
  await never.close();
  const broken = shopAt(time, temporaryFolder({ fast: true }));
  writeFileSync(broken.file, 'no database'.repeat(99));
  await broken.must('start', {});
  await time.goOnTo(broken, at(0, 12, 0));
  await broken.close();
  for (const { folder } of [never, broken]) expect(listBackups(dataFolder(folder))).toEqual([]);
});
