/** The small tables beside the headers: the bin, drafts, preferences and the store's own upkeep. */

import type Database from 'better-sqlite3';
import type { RequestOf } from '../bridge/contract.ts';
import { preferencesSchema } from '../bridge/messages.ts';
import { isIntact } from './rows/checksums.ts';
import { intactRow, shaped } from './rows/read-row.ts';
import { rowTable } from './rows/row-table.ts';

type Draft = Readonly<NonNullable<RequestOf<'saveDraft'>['draft']>>;
export type Preferences = RequestOf<'savePreferences'>['preferences'];

const FIRST_PREFERENCES: Preferences = { theme: 'system', density: 'bench' };

/** The rows that hold how the bench is set up. */
const LOOKS = { sizes: 'benchSizes', boardOrder: 'boardOrder', standpoints: 'standpoints' } as const;
type Look = keyof typeof LOOKS;

export function binTable(db: Database.Database) {
  const rows = rowTable(db, 'bin', ['header_id']);
  return {
    /** One that lies there already lies there since then. */
    put(headerId: string, now: string): void {
      if (!rows.find(headerId)) rows.insert({ header_id: headerId, binned_at: now });
    },
    takeOut: (headerId: string): void => rows.remove(headerId),
  };
}

export function draftTable(db: Database.Database) {
  const rows = rowTable(db, 'drafts', ['header_id']);
  return {
    save: (headerId: string, draft: Draft | null): unknown =>
      draft === null ? rows.remove(headerId) : rows.put({ header_id: headerId, ...draft }),
    /** One that is damaged is not offered: half-typed text is not worth a header that does not open. */
    find(headerId: string): Draft | null {
      const row = rows.find(headerId);
      return row && isIntact('drafts', row) ? { field: row.field, text: row.text } : null;
    },
  };
}

/** How the bench was last set up. What is damaged is left out: the bench then looks as at first. */
function looksTable(db: Database.Database) {
  const rows = rowTable(db, 'looks', ['name']);
  const found = (look: Look): unknown => {
    const row = rows.find(LOOKS[look]);
    return row && isIntact('looks', row) ? JSON.parse(row.value) : undefined;
  };
  return {
    save(preferences: Preferences): void {
      for (const name of Object.keys(LOOKS) as Look[]) {
        const value = preferences[name];
        if (value !== undefined) rows.put({ name: LOOKS[name], value: JSON.stringify(value) });
      }
    },
    find(): Pick<Preferences, Look> {
      const { sizes, boardOrder, standpoints } = preferencesSchema.shape;
      return {
        ...whole('sizes', sizes.safeParse(found('sizes')).data),
        ...whole('boardOrder', boardOrder.safeParse(found('boardOrder')).data),
        ...whole('standpoints', standpoints.safeParse(found('standpoints')).data),
      };
    },
  };
}

/** The look under its name; nothing when there is none. */
function whole<Name extends Look>(name: Name, value: Preferences[Name]): Pick<Preferences, Name> {
  return (value === undefined ? {} : { [name]: value }) as Pick<Preferences, Name>;
}

export function preferencesTable(db: Database.Database) {
  const rows = rowTable(db, 'preferences', ['id']);
  const looks = looksTable(db);
  const write = (preferences: Preferences, lastHeaderId: string | null) => {
    const { theme, density } = preferences;
    rows.put({ id: 1, theme, density, last_header_id: lastHeaderId });
    looks.save(preferences);
  };
  function read(): { readonly preferences: Preferences; readonly lastHeaderId: string | null } {
    const row = rows.find(1);
    const found = looks.find();
    if (!row) return { preferences: { ...FIRST_PREFERENCES, ...found }, lastHeaderId: null };
    const { theme, density, last_header_id } = intactRow('preferences', row);
    const preferences = shaped(preferencesSchema, { theme, density }, 'the preferences');
    return { preferences: { ...preferences, ...found }, lastHeaderId: last_header_id };
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
  return rowTable(db, 'upkeep', ['id']).find(1)?.full_check_at ?? '';
}

export function upkeepTable(db: Database.Database) {
  const rows = rowTable(db, 'upkeep', ['id']);
  return {
    /** One small write at every opening: it shows that the database takes writes. */
    countOpening: (fullCheckAt: string): unknown =>
      rows.put({ id: 1, opened: (rows.find(1)?.opened ?? 0) + 1, full_check_at: fullCheckAt }),
  };
}
