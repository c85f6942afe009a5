/** Cut plans that were carried out: which step of the stock book each was, whose pieces it cut, and its cut list. */

import type Database from 'better-sqlite3';
import { type KeptPlan, keptPlanSchema } from '../../../core/index.ts';
import type { StoredRow } from '../rows/columns.ts';
import { isIntact, readCell, rowTable } from '../rows/row-table.ts';

/** A plan that stands: it was not taken back, or was done again since. */
export interface StandingPlan {
  /** Of the stock book; by it the plan is taken back. */
  readonly step: number;
  readonly madeAt: number;
  readonly kept: KeptPlan;
}

type StandingRow = StoredRow<'cut_plans'> & { readonly made_at: number };

const STANDING = `SELECT p.*, s.made_at FROM cut_plans AS p JOIN shelf_steps AS s ON s.place = p.step WHERE p.header_id = ?
  AND coalesce((SELECT action FROM shelf_steps WHERE of_place = p.step ORDER BY place DESC LIMIT 1), 'redo') = 'redo'
  ORDER BY p.step DESC`;

export function cutPlanTable(db: Database.Database) {
  const rows = rowTable(db, 'cut_plans', ['step', 'header_id']);
  const headers = db
    .prepare<[number], string>('SELECT header_id FROM cut_plans WHERE step = ? ORDER BY header_id')
    .pluck();
  const standing = db.prepare<[string], StandingRow>(STANDING);
  return {
    /** In the transaction of the step that it is. */
    keep: (step: number, headerId: string, kept: KeptPlan): void =>
      void rows.insert({ step, header_id: headerId, document: JSON.stringify(kept) }),
    /** Of which headers a step of the stock book cut pieces; none where it is no plan. A damaged row still names its header. */
    headersOf: (step: number): readonly string[] => headers.all(step),
    /** The newest first. Damaged ones are left out: what they cut can still be taken back on the shelf. */
    standing: (headerId: string): readonly StandingPlan[] =>
      standing.all(headerId).flatMap(({ made_at, ...row }) => {
        const kept = isIntact('cut_plans', row) ? readCell(keptPlanSchema, row.document) : null;
        return kept === null ? [] : [{ step: row.step, madeAt: made_at, kept }];
      }),
  };
}
