/** How a header gets into the database, and what is written when the program ends. */

import { type Header, type Problem, type Result, success } from '../../../core/index.ts';
import { textChecksum } from '../rows/row-table.ts';
import type { Tables } from '../tables.ts';

interface Made {
  /** Of the request that made it. */
  readonly stepId: string;
  readonly changedAt: Date;
}

/** Stores a header that is new to the database: the first row of its journal and its first snapshot. In a transaction. */
export function keepHeader(tables: Tables, header: Header, { stepId, changedAt }: Made): void {
  tables.headers.add(header.id);
  const chain = tables.journal.append(header, {
    revision: 0,
    step_id: stepId,
    action: 'make',
    of_revision: null,
    undo_next: null,
    redo_next: null,
    label: '',
    edit: 'null',
    inverse: 'null',
    changed_at: changedAt.getTime(),
    before: textChecksum(JSON.stringify(header)),
  });
  tables.snapshots.keep({ header, revision: 0, chain });
}

/**
 * Gives each header written to a snapshot of its last step. A step writes nothing but its row, so nothing else would
 * tell that the last rows of a journal are gone: a snapshot that the journal does not reach does.
 */
export function keepEnds({ standings, journal, snapshots, inTransaction }: Tables): Result<null, Problem> {
  return inTransaction<null, Problem>(() => {
    for (const { header, revision, checksum, snapshotAt } of standings.all()) {
      const isNewest = journal.end(header.id) === checksum;
      if (snapshotAt < revision && isNewest) snapshots.keep({ header, revision, chain: checksum });
    }
    return success(null);
  });
}
