/** Takes the place of the program's list of migrations in a process of a version that was never released. */

import { MIGRATIONS as RELEASED } from '../../../electron/store/schema/migration-list.ts';
import { madeUpMigration } from './made-up-migration.ts';

export const MIGRATIONS = [...RELEASED, madeUpMigration];
