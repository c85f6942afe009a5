/** The small tables beside the headers: the bin, drafts, preferences and the store's own upkeep. */

import type Database from 'better-sqlite3';
import type { RequestOf } from '../bridge/contract.ts';
import { preferencesSchema } from '../bridge/contract.ts';
import { isIntact, sealed } from './rows/checksums.ts';
import { intactRow, shaped } from './rows/read-row.ts';

type Draft = Readonly<NonNullable<RequestOf<'saveDraft'>['draft']>>;
export type Preferences = RequestOf<'savePreferences'>['preferences'];

const FIRST_PREFERENCES: Preferences = { theme: 'system', density: 'bench' };

export function binTable(db: Database.Database) {
  const put = db.prepare('INSERT INTO bin VALUES (@header_id, @binned_at, @checksum) ON CONFLICT DO NOTHING');
  const takeOut = db.prepare('DELETE FROM bin WHERE header_id = ?');
  return {
    put: (headerId: string, now: string): unknown => put.run(sealed('bin', { header_id: headerId, binned_at: now })),
    takeOut: (headerId: string): unknown => takeOut.run(headerId),
  };
}

export function draftTable(db: Database.Database) {
  const put = db.prepare(
    `INSERT INTO drafts VALUES (@header_id, @field, @text, @checksum)
     ON CONFLICT DO UPDATE SET field = excluded.field, text = excluded.text, checksum = excluded.checksum`,
  );
  const drop = db.prepare('DELETE FROM drafts WHERE header_id = ?');
  const find = db.prepare<[string], { header_id: string; field: string; text: string; checksum: number }>(
    'SELECT * FROM drafts WHERE header_id = ?',
  );
  return {
    save: (headerId: string, draft: Draft | null): unknown =>
      draft === null ? drop.run(headerId) : put.run(sealed('drafts', { header_id: headerId, ...draft })),
    /** One that is damaged is not offered: half-typed text is not worth a header that does not open. */
    find(headerId: string): Draft | null {
      const row = find.get(headerId);
      return row && isIntact('drafts', row) ? { field: row.field, text: row.text } : null;
    },
  };
}

interface PreferencesRow {
  readonly id: 1;
  readonly theme: string;
  readonly density: string;
  readonly last_header_id: string | null;
  readonly checksum: number;
}

export function preferencesTable(db: Database.Database) {
  const find = db.prepare<[], PreferencesRow>('SELECT * FROM preferences');
  const put = db.prepare(
    `INSERT INTO preferences VALUES (@id, @theme, @density, @last_header_id, @checksum)
     ON CONFLICT DO UPDATE SET theme = excluded.theme, density = excluded.density,
       last_header_id = excluded.last_header_id, checksum = excluded.checksum`,
  );
  const write = (preferences: Preferences, lastHeaderId: string | null) =>
    put.run(sealed('preferences', { id: 1, ...preferences, last_header_id: lastHeaderId }));
  function read(): { readonly preferences: Preferences; readonly lastHeaderId: string | null } {
    const row = find.get();
    if (!row) return { preferences: FIRST_PREFERENCES, lastHeaderId: null };
    const { theme, density, last_header_id } = intactRow('preferences', row);
    return {
      preferences: shaped(preferencesSchema, { theme, density }, 'the preferences'),
      lastHeaderId: last_header_id,
    };
  }
  return {
    read,
    save: (preferences: Preferences): unknown => write(preferences, read().lastHeaderId),
    rememberHeader(headerId: string): void {
      const { preferences, lastHeaderId } = read();
      if (lastHeaderId !== headerId) write(preferences, headerId);
    },
  };
}

/** When every index was last compared with its table; empty when it is not known. A damaged row shows in the checks. */
export function lastFullCheck(db: Database.Database): string {
  const row = db.prepare<[], { readonly at: string }>('SELECT full_check_at AS at FROM upkeep').get();
  return row?.at ?? '';
}

export function upkeepTable(db: Database.Database) {
  const opened = db.prepare<[], number>('SELECT opened FROM upkeep').pluck();
  const put = db.prepare(
    `INSERT INTO upkeep VALUES (@id, @opened, @full_check_at, @checksum)
     ON CONFLICT DO UPDATE SET opened = excluded.opened, full_check_at = excluded.full_check_at, checksum = excluded.checksum`,
  );
  return {
    /** One small write at every opening: it shows that the database takes writes. */
    countOpening: (fullCheckAt: string): unknown =>
      put.run(sealed('upkeep', { id: 1, opened: (opened.get() ?? 0) + 1, full_check_at: fullCheckAt })),
  };
}
