/** A drawing too large for a page, cut into parts that overlap, with the lines at which they are joined. */

import type { Window } from './clip.ts';

export interface Part {
  /** What of the drawing stands on it, mm. */
  readonly window: Window;
  /** Where labels belong to this part and to no other. */
  readonly own: Window;
  /** Lines across the overlaps, each with the name that it also has on the neighbour. */
  readonly joins: readonly Join[];
}

export type Join = { readonly name: string } & (
  | { readonly kind: 'upright'; readonly xMm: number }
  | { readonly kind: 'level'; readonly yMm: number }
);

/** Paper that two parts have in common, mm: room for tape, with the line to join at in its middle. */
export const OVERLAP_MM = 10;

export interface Size {
  readonly widthMm: number;
  readonly heightMm: number;
}

/** Row by row from the upper left; one part when all of it fits. */
export function partsOf(drawing: Size, room: Size): readonly Part[] {
  const columns = stretches(drawing.widthMm, room.widthMm);
  const rows = stretches(drawing.heightMm, room.heightMm);
  return rows.flatMap((row, rowAt) =>
    columns.map((column, columnAt): Part => {
      const name = (across: number, down: number, way: string) => `${way}${down + 1}.${across + 1}`;
      return {
        window: { left: column.from, right: column.to, top: row.from, bottom: row.to },
        own: { left: column.ownFrom, right: column.ownTo, top: row.ownFrom, bottom: row.ownTo },
        joins: [
          ...column.joins.map(
            ({ atMm, index }): Join => ({ kind: 'upright', xMm: atMm, name: name(index, rowAt, 'A') }),
          ),
          ...row.joins.map(({ atMm, index }): Join => ({ kind: 'level', yMm: atMm, name: name(columnAt, index, 'B') })),
        ],
      };
    }),
  );
}

interface Stretch {
  readonly from: number;
  readonly to: number;
  readonly ownFrom: number;
  readonly ownTo: number;
  readonly joins: readonly { readonly atMm: number; readonly index: number }[];
}

/** Lengths of at most `roomMm` that overlap and cover the whole; a hair over the room counts as fitting. */
function stretches(lengthMm: number, roomMm: number): readonly Stretch[] {
  if (lengthMm <= roomMm + 1e-6) return [{ from: 0, to: lengthMm, ownFrom: 0, ownTo: lengthMm, joins: [] }];
  const stepMm = roomMm - OVERLAP_MM;
  const count = Math.ceil((lengthMm - OVERLAP_MM) / stepMm);
  const joinAt = (index: number) => ({ atMm: (index + 1) * stepMm + OVERLAP_MM / 2, index });
  return Array.from({ length: count }, (_, at): Stretch => {
    const isLast = at === count - 1;
    const from = at * stepMm;
    return {
      from,
      to: isLast ? lengthMm : from + roomMm,
      ownFrom: from,
      ownTo: isLast ? lengthMm : from + stepMm,
      joins: [...(at === 0 ? [] : [joinAt(at - 1)]), ...(isLast ? [] : [joinAt(at)])],
    };
  });
}
