/** What is no part of any header: how the program was left to look, and when its database was last checked. */

import type Database from 'better-sqlite3';
import * as z from 'zod';
import type { RequestOf } from '../bridge/contract.ts';
import { preferencesSchema } from '../bridge/messages.ts';
import { isIntact, readCell, rowTable } from './rows/row-table.ts';

type Preferences = RequestOf<'savePreferences'>['preferences'];

const FIRST_PREFERENCES: Preferences = { theme: 'system', density: 'bench' };

const upkeepSchema = z.strictObject({ opened: z.int().min(0), fullCheckAt: z.string().max(40) });

/** A setting that is damaged counts as never made. */
export function settingsTable(db: Database.Database) {
  const rows = rowTable(db, 'settings', ['name']);
  function read<Shape extends z.ZodType>(name: string, schema: Shape): z.output<Shape> | null {
    const row = rows.find(name);
    return row && isIntact('settings', row) ? readCell(schema, row.value) : null;
  }
  const write = (name: string, value: unknown): unknown => rows.put({ name, value: JSON.stringify(value) });
  const preferences = (): Preferences => read('preferences', preferencesSchema) ?? FIRST_PREFERENCES;
  const lastHeaderId = () => read('lastHeader', z.string());
  const upkeep = () => read('upkeep', upkeepSchema);
  return {
    preferences,
    /** What is left out stays as it was. */
    savePreferences: (changed: Preferences): unknown => write('preferences', { ...preferences(), ...changed }),
    /** The header that was opened last; null when there is none. */
    lastHeaderId,
    rememberHeader(headerId: string): void {
      if (lastHeaderId() !== headerId) write('lastHeader', headerId);
    },
    /** When every index was last compared with its table; empty when it is not known. */
    lastFullCheck: (): string => upkeep()?.fullCheckAt ?? '',
    /** One small write at every opening: it shows that the database takes writes. */
    countOpening: (fullCheckAt: string): unknown =>
      write('upkeep', { opened: (upkeep()?.opened ?? 0) + 1, fullCheckAt }),
  };
}
