/** The open database as the rest of the store sees it: lost after a failing disk, checked before it is trusted again. */

import type Database from 'better-sqlite3';
import { failure, type Result, type StorageFault, type StorageProblem, success } from '../../../core/index.ts';
import type { Tables } from '../tables.ts';
import type { DataFolder } from './data-folder.ts';
import { isWriteRefused, storageProblemOf } from './faults.ts';
import { type OpenedDatabase, openDatabase } from './open-database.ts';
import { openForLooking } from './open-for-looking.ts';

/** After these the file, or what the operating system holds of it, may not be what SQLite believes. */
const SUSPECT: readonly StorageFault[] = ['ioError', 'corrupt'];
/** These do not pass by themselves: only an explicit start, or a restored backup, tries again. */
const LASTING: readonly StorageFault[] = ['corrupt', 'newerVersion', 'notOurs', 'missing', 'pathTooLong'];

export interface Connection {
  /**
   * Opens, unless it is open and takes writes. A database that cannot be written is opened to be looked at, until `open`
   * is called again and finds that it can. The problem is remembered, and answers every `use` until it can have passed.
   */
  open(): Result<OpenedDatabase, StorageProblem>;
  /** Runs `act` on the open database; opens it first when a failing disk had closed it. */
  use<Value, Trouble>(act: (tables: Tables) => Result<Value, Trouble>): Result<Value, Trouble | StorageProblem>;
  /** As `use`, for what only looks and cannot be refused. Throws when it writes after all. */
  read<Value>(look: (tables: Tables) => Value): Result<Value, StorageProblem>;
  /** It is open, and not only to be looked at. */
  readonly isWritable: boolean;
  close(): void;
}

/** What the connection is now, and why when it is closed. */
type Standing =
  | { readonly kind: 'open'; readonly opened: OpenedDatabase }
  | { readonly kind: 'closed'; readonly problem: StorageProblem | null };

export function createConnection(place: DataFolder, clock: () => Date): Connection {
  return new DatabaseConnection(place, clock);
}

class DatabaseConnection implements Connection {
  readonly #place: DataFolder;
  readonly #clock: () => Date;
  #standing: Standing = { kind: 'closed', problem: null };

  constructor(place: DataFolder, clock: () => Date) {
    this.#place = place;
    this.#clock = clock;
  }

  get isWritable(): boolean {
    return this.#standing.kind === 'open' && this.#standing.opened.cannotWrite === null;
  }

  open(): Result<OpenedDatabase, StorageProblem> {
    if (this.#standing.kind === 'open' && this.isWritable) return success(this.#standing.opened);
    this.close();
    const result = openDatabase(this.#place, this.#clock());
    const [problem] = result.ok ? [] : result.problems;
    return this.#settle(problem ? openForLooking(this.#place, problem) : result);
  }

  use<Value, Trouble>(act: (tables: Tables) => Result<Value, Trouble>): Result<Value, Trouble | StorageProblem> {
    const standing = this.#standing;
    if (standing.kind === 'closed' && standing.problem && isLasting(standing.problem)) return failure(standing.problem);
    // Not to be looked at only: who has begun to write must not go on with what a full disk lets be read.
    const opened =
      standing.kind === 'open' ? success(standing.opened) : this.#settle(openDatabase(this.#place, this.#clock()));
    if (!opened.ok) return opened;
    try {
      return act(opened.value.tables);
    } catch (cause) {
      return failure(this.#problemOf(cause));
    }
  }

  read<Value>(look: (tables: Tables) => Value): Result<Value, StorageProblem> {
    return this.use((tables) => success(withoutWriting(tables.db, () => look(tables))));
  }

  close(problem: StorageProblem | null = null): void {
    const was = this.#standing;
    this.#standing = { kind: 'closed', problem };
    if (was.kind === 'open') was.opened.tables.db.close();
  }

  #settle(result: Result<OpenedDatabase, StorageProblem>): Result<OpenedDatabase, StorageProblem> {
    if (result.ok) this.#standing = { kind: 'open', opened: result.value };
    else this.close(result.problems[0] ?? null);
    return result;
  }

  /** What was met while it was open, as a problem; a defect of the program is thrown on. */
  #problemOf(cause: unknown): StorageProblem {
    const cannotWrite = this.#standing.kind === 'open' ? this.#standing.opened.cannotWrite : null;
    if (cannotWrite !== null && isWriteRefused(cause)) return cannotWrite;
    const problem = storageProblemOf(cause, this.#place.databaseFile);
    if (problem === null) throw cause;
    // Nothing more is acknowledged over this connection: what the disk holds is read anew, and checked.
    if (isSuspect(problem)) this.close(problem);
    return problem;
  }
}

/** SQLite holds it to that. */
function withoutWriting<Value>(db: Database.Database, look: () => Value): Value {
  db.pragma('query_only = ON');
  try {
    return look();
  } catch (cause) {
    throw isWriteRefused(cause) ? new Error('what should only read has tried to write', { cause }) : cause;
  } finally {
    if (db.open) db.pragma('query_only = OFF');
  }
}

const isSuspect = (problem: StorageProblem) => problem.kind === 'storage' && SUSPECT.includes(problem.fault);
const isLasting = (problem: StorageProblem) => problem.kind === 'storage' && LASTING.includes(problem.fault);
