/** The open database as the rest of the store sees it: lost after a failing disk, checked before it is trusted again. */

import { failure, type Result, type StorageFault, type StorageProblem, success } from '../../../core/index.ts';
import type { Tables } from '../tables.ts';
import type { DataFolder } from './data-folder.ts';
import { storageProblemOf } from './faults.ts';
import { type OpenedDatabase, openDatabase } from './open-database.ts';

/** After these the file, or what the operating system holds of it, may not be what SQLite believes. */
const SUSPECT: readonly StorageFault[] = ['ioError', 'corrupt'];
/** These do not pass by themselves: only an explicit start, or a restored backup, tries again. */
const LASTING: readonly StorageFault[] = ['corrupt', 'newerVersion', 'notOurs', 'missing'];

export interface Connection {
  /** Opens unless it is open. The problem is remembered, and answers every `use` until it can have passed. */
  open(): Result<OpenedDatabase, StorageProblem>;
  /** Runs `act` on the open database; opens it first when a failing disk had closed it. */
  use<Value, Trouble>(act: (tables: Tables) => Result<Value, Trouble>): Result<Value, Trouble | StorageProblem>;
  /** As `use`, for what cannot be refused. */
  read<Value>(look: (tables: Tables) => Value): Result<Value, StorageProblem>;
  readonly isOpen: boolean;
  close(): void;
}

type Standing =
  | { readonly kind: 'open'; readonly opened: OpenedDatabase }
  | { readonly kind: 'closed'; readonly problem: StorageProblem | null };

export function createConnection(place: DataFolder, clock: () => Date): Connection {
  let standing: Standing = { kind: 'closed', problem: null };

  function open(): Result<OpenedDatabase, StorageProblem> {
    if (standing.kind === 'open') return { ok: true, value: standing.opened };
    const result = openDatabase(place, clock());
    standing = result.ok
      ? { kind: 'open', opened: result.value }
      : { kind: 'closed', problem: result.problems[0] ?? null };
    return result;
  }

  function close(problem: StorageProblem | null): void {
    const was = standing;
    standing = { kind: 'closed', problem };
    if (was.kind === 'open') was.opened.tables.db.close();
  }

  function use<Value, Trouble>(
    act: (tables: Tables) => Result<Value, Trouble>,
  ): Result<Value, Trouble | StorageProblem> {
    if (standing.kind === 'closed' && standing.problem && isLasting(standing.problem)) return failure(standing.problem);
    try {
      const opened = open();
      return opened.ok ? act(opened.value.tables) : opened;
    } catch (cause) {
      const problem = storageProblemOf(cause, place.databaseFile);
      if (problem === null) throw cause;
      // Nothing more is acknowledged over this connection: what the disk holds is read anew, and checked.
      if (isSuspect(problem)) close(problem);
      return failure(problem);
    }
  }

  return {
    open,
    use,
    read: (look) => use((tables) => success(look(tables))),
    get isOpen() {
      return standing.kind === 'open';
    },
    close: () => close(null),
  };
}

const isSuspect = (problem: StorageProblem) => problem.kind === 'storage' && SUSPECT.includes(problem.fault);
const isLasting = (problem: StorageProblem) => problem.kind === 'storage' && LASTING.includes(problem.fault);
