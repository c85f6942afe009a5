/** Which revision wrote each row of a header last: rows of different ages that do not fit are never taken for a header. */

import * as z from 'zod';
import type { Header, Primary } from '../../../core/index.ts';
import { DamagedRow } from '../file/faults.ts';
import { cellOf } from '../rows/read-row.ts';

export interface RowRevisions {
  /** The header's own row, which lists show. */
  readonly own: number;
  /** The header without its primaries. */
  readonly frame: number;
  /** By id, in the order of the header. */
  readonly primaries: ReadonlyMap<string, number>;
}

/** A header and the revisions of its rows. */
export interface Rows {
  readonly header: Header;
  readonly rows: RowRevisions;
}

const cellSchema = z.array(z.int().nonnegative());

/** Those of a header without a step. */
export function asMade(primaryIds: readonly string[]): RowRevisions {
  return { own: 0, frame: 0, primaries: new Map(primaryIds.map((id) => [id, 0])) };
}

/**
 * After a change at `revision`, which writes the rows that it makes differ. Parts that an edit leaves alone stay the same
 * objects. `isMoved`: the place of the header in lists changes, which is in its own row.
 */
export function revisionsAfter(before: Rows, header: Header, { revision, isMoved }: Moment): RowRevisions {
  const { rows } = before;
  const writtenAt = (primary: Primary) =>
    before.header.primaries.includes(primary) ? rows.primaries.get(primary.id) : undefined;
  return {
    own: isMoved || !haveSameOwnRow(before.header, header) ? revision : rows.own,
    frame: haveSameFrame(before.header, header) ? rows.frame : revision,
    primaries: new Map(header.primaries.map((primary) => [primary.id, writtenAt(primary) ?? revision])),
  };
}

interface Moment {
  readonly revision: number;
  readonly isMoved: boolean;
}

function haveSameOwnRow(one: Header, other: Header): boolean {
  const isSameList =
    one.primaries.length === other.primaries.length &&
    one.primaries.every(({ id }, index) => id === other.primaries[index]?.id);
  return isSameList && one.name === other.name && one.state === other.state;
}

/** Whether two versions differ in nothing but their primaries. */
function haveSameFrame(one: Header, other: Header): boolean {
  const keys = Object.keys(other) as (keyof Header)[];
  return keys.every((key) => key === 'primaries' || one[key] === other[key]);
}

/** As a cell of the journal. */
export function revisionsText({ own, frame, primaries }: RowRevisions): string {
  return JSON.stringify([own, frame, ...primaries.values()]);
}

/** Of a header with the given primaries, from a cell of the journal. Throws DamagedRow. */
export function revisionsIn(cell: string, primaryIds: readonly string[], where: string): RowRevisions {
  const [own, frame, ...each] = cellOf(cellSchema, cell, where);
  if (own === undefined || frame === undefined || each.length !== primaryIds.length)
    throw new DamagedRow(`${where} are not those of ${primaryIds.length} primaries`);
  return { own, frame, primaries: new Map(primaryIds.map((id, index) => [id, each[index] ?? 0])) };
}
