/** The open database as the rest of the store sees it: lost after a failing disk, checked before it is trusted again. */

import type Database from 'better-sqlite3';
import { failure, type Result, type StorageFault, type StorageProblem, success } from '../../../core/index.ts';
import type { Tables } from '../tables.ts';
import type { DataFolder } from './data-folder.ts';
import { expectedProblem, isWriteRefused } from './faults.ts';
import { type OpenedDatabase, openDatabase } from './open-database.ts';
import { openForLooking } from './open-for-looking.ts';

/** After these the file, or what the operating system holds of it, may not be what SQLite believes. */
const SUSPECT: readonly StorageFault[] = ['ioError', 'corrupt'];
/** These do not pass by themselves: only an explicit start, or a restored backup, tries again. */
const LASTING: readonly StorageFault[] = ['corrupt', 'newerVersion', 'notOurs', 'missing', 'pathTooLong'];

export class Connection {
  readonly #place: DataFolder;
  readonly #clock: () => Date;
  #opened: OpenedDatabase | null = null;
  /** Why it is closed; null when nothing stood in the way. */
  #problem: StorageProblem | null = null;

  constructor(place: DataFolder, clock: () => Date) {
    this.#place = place;
    this.#clock = clock;
  }

  /** It is open, and not only to be looked at. */
  get isWritable(): boolean {
    return this.#opened?.cannotWrite === null;
  }

  /**
   * Opens, unless it is open and takes writes. A database that cannot be written is opened to be looked at, until `open`
   * is called again and finds that it can. The problem is remembered, and answers every `use` until it can have passed.
   */
  open(): Result<OpenedDatabase, StorageProblem> {
    if (this.#opened && this.isWritable) return success(this.#opened);
    this.close();
    const result = openDatabase(this.#place, this.#clock());
    const [problem] = result.ok ? [] : result.problems;
    return this.#kept(problem ? openForLooking(this.#place, problem) : result);
  }

  /** Runs `act` on the open database; opens it first when a failing disk had closed it. */
  use<Value, Trouble>(act: (tables: Tables) => Result<Value, Trouble>): Result<Value, Trouble | StorageProblem> {
    if (this.#problem && isOneOf(LASTING, this.#problem)) return failure(this.#problem);
    // Not to be looked at only: who has begun to write must not go on with what a full disk lets be read.
    const opened = this.#opened ? success(this.#opened) : this.#kept(openDatabase(this.#place, this.#clock()));
    if (!opened.ok) return opened;
    try {
      return act(opened.value.tables);
    } catch (cause) {
      return failure(this.#problemOf(cause));
    }
  }

  /** As `use`, for what only looks and cannot be refused. Throws when it writes after all. */
  read<Value>(look: (tables: Tables) => Value): Result<Value, StorageProblem> {
    return this.use((tables) => success(withoutWriting(tables.db, () => look(tables))));
  }

  close(problem: StorageProblem | null = null): void {
    this.#opened?.tables.db.close();
    this.#opened = null;
    this.#problem = problem;
  }

  #kept(result: Result<OpenedDatabase, StorageProblem>): Result<OpenedDatabase, StorageProblem> {
    this.#opened = result.ok ? result.value : null;
    this.#problem = result.ok ? null : (result.problems[0] ?? null);
    return result;
  }

  /** What was met while it was open, as a problem; a defect of the program is thrown on. */
  #problemOf(cause: unknown): StorageProblem {
    const cannotWrite = this.#opened?.cannotWrite ?? null;
    if (cannotWrite !== null && isWriteRefused(cause)) return cannotWrite;
    const problem = expectedProblem(cause, this.#place.databaseFile);
    // Nothing more is acknowledged over this connection: what the disk holds is read anew, and checked.
    if (isOneOf(SUSPECT, problem)) this.close(problem);
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

function isOneOf(faults: readonly StorageFault[], problem: StorageProblem): boolean {
  return problem.kind === 'storage' && faults.includes(problem.fault);
}
