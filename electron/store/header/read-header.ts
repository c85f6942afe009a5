/** From rows to a header: the newest sound snapshot and the steps after it, with every link of the chain looked at. */

import { applyCheckedEdit, failure, type Header, type Problem, type Result, success } from '../../../core/index.ts';
import { isIntact } from '../rows/row-table.ts';
import type { Tables } from '../tables.ts';
import { editIn, type JournalRow } from './journal.ts';
import { EDIT_MEANING, type Snapshot, type SoundSnapshot } from './snapshots.ts';
import type { Standing } from './standing.ts';

/** A header as far as it is sound. */
export interface ReadHeader extends Standing {
  /** What is damaged, in words; null when nothing is. Such a header takes no more steps: they would build on it. */
  readonly damage: string | null;
}

/**
 * Reads all rows of the header, so that one that is missing, doubled, swapped or changed is found wherever it is. The
 * document needs only those after the newest sound snapshot; those between the two newest are applied as well, and must
 * lead from the one to the other. To be called in a transaction. Linear in the length of the journal: 10,000 steps
 * take some 50 ms. Problems: notFound, and damagedHeader when not even one snapshot is sound.
 */
export function readHeader(tables: Tables, headerId: string): Result<ReadHeader, Problem> {
  const { journal, snapshots } = tables;
  const [newest, earlier] = snapshots.newestSound(headerId, 2);
  if (!newest) return unreadable(headerId, journal.newest(headerId) !== undefined);
  const chain = readChain(journal.all(headerId), (earlier ?? newest).revision);
  const damage = [...chain.breaks.values(), ...unprovenIn(chain, newest, earlier), ...lostOf(tables, headerId)];
  const start = { ...newest, checksum: newest.chain, undoNext: null, redoNext: null, snapshotAt: newest.revision };
  const atSnapshot = chain.rows.get(newest.revision);
  if (atSnapshot?.checksum !== newest.chain) {
    damage.push(`the journal does not lead to the snapshot at step ${newest.revision}`);
    return success({ ...start, damage: wordsFor(damage) });
  }
  const end = replayed(chain, newest, Number.POSITIVE_INFINITY);
  damage.push(...end.damage);
  const { undo_next: undoNext, redo_next: redoNext, checksum } = end.row ?? atSnapshot;
  const { header, revision } = end;
  return success({ ...start, header, revision, checksum, undoNext, redoNext, damage: wordsFor(damage) });
}

/** The first few; null where nothing is wrong. */
function wordsFor(damage: readonly string[]): string | null {
  const more = damage.length > 3 ? [`and ${damage.length - 3} more`] : [];
  return damage.length === 0 ? null : [...damage.slice(0, 3), ...more].join('; ');
}

/** A header without a row in the journal was never made. */
function unreadable(headerId: string, isThere: boolean): Result<never, Problem> {
  if (!isThere) return failure({ kind: 'notFound', what: 'header', id: headerId });
  return failure({ kind: 'damagedHeader', headerId, detail: `no snapshot of meaning ${EDIT_MEANING} is sound` });
}

/** What a look at all rows of a header came to. */
interface Chain {
  /** Rows from some revision on, by revision. */
  readonly rows: ReadonlyMap<number, JournalRow>;
  /** What is wrong, in words, by the revision at which the chain does not hold. */
  readonly breaks: ReadonlyMap<number, string>;
}

function readChain(all: Iterable<JournalRow>, keptFrom: number): Chain {
  const rows = new Map<number, JournalRow>();
  const breaks = new Map<number, string>();
  let last: JournalRow | null = null;
  for (const row of all) {
    const { revision } = row;
    const expected = last === null ? 0 : last.revision + 1;
    if (revision !== expected) breaks.set(expected, `step ${expected} is missing`);
    if (!isIntact('journal', row)) breaks.set(revision, `step ${revision} is damaged`);
    else if (last !== null && revision === expected && row.before !== last.checksum)
      breaks.set(revision, `step ${revision} does not follow the one before it`);
    if (revision >= keptFrom) rows.set(revision, row);
    last = row;
  }
  return { rows, breaks };
}

/** A journal only grows: one that ends before what this process wrote to it has lost its last steps. */
function lostOf({ journal, standings }: Tables, headerId: string): readonly string[] {
  const held = standings.get(headerId);
  if (!held || journal.find(headerId, held.revision)?.checksum === held.checksum) return [];
  return [`the journal no longer leads to step ${held.revision}`];
}

interface Replayed {
  readonly header: Header;
  readonly revision: number;
  /** The row that led there; null when there was none. */
  readonly row: JournalRow | null;
  readonly damage: readonly string[];
}

/** Applies the steps after a snapshot, up to a revision or to where the chain does not hold. */
function replayed(chain: Chain, from: Snapshot, upTo: number): Replayed {
  let { header, revision } = from;
  let row: JournalRow | null = null;
  while (revision < upTo && !chain.breaks.has(revision + 1)) {
    const next = chain.rows.get(revision + 1);
    if (!next) break;
    const applied = applyCheckedEdit(header, editIn(next));
    if (!applied.ok) return { header, revision, row, damage: [`step ${revision + 1} does not apply`] };
    ({ header } = applied.value);
    revision += 1;
    row = next;
  }
  return { header, revision, row, damage: [] };
}

/**
 * What speaks against the snapshots that a header is read from: that the steps between them lead elsewhere, or that the
 * first one is not what the first row covers. Nothing can be said where the chain between them does not hold.
 */
function unprovenIn(chain: Chain, newest: SoundSnapshot, earlier: SoundSnapshot | undefined): readonly string[] {
  const first = earlier ?? newest;
  const isFirst = first.revision > 0 || chain.rows.get(0)?.before === first.documentChecksum;
  if (!isFirst && chain.rows.has(0)) return ['the first step is of another document'];
  if (!earlier) return [];
  const { header, revision, damage } = replayed(chain, earlier, newest.revision);
  const isSame = revision < newest.revision || JSON.stringify(header) === JSON.stringify(newest.header);
  return isSame ? damage : [`the steps do not lead to the snapshot at step ${newest.revision}`];
}
