/** Pictures of headers: what is told of each, and their files, which are read one at a time. */

import { createHash } from 'node:crypto';
import type Database from 'better-sqlite3';
import type { ResponseOf } from '../../bridge/contract.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import type { Row, StoredRow } from '../rows/columns.ts';
import { isIntact, rowTable } from '../rows/row-table.ts';

export type Picture = ReadOnly<ResponseOf<'listPictures'>['pictures'][number]>;
/** What is frozen of a picture when its header is finished: all but the id that a database finds it by. */
export interface PictureFacts extends Omit<Picture, 'id'> {
  /** SHA-256 of its file, hexadecimal. */
  readonly sha256: string;
}

export function pictureTable(db: Database.Database) {
  const rows = rowTable(db, 'pictures', ['header_id', 'id']);
  const files = rowTable(db, 'picture_bytes', ['header_id', 'id']);
  const inOrder = db.prepare<[string], StoredRow<'pictures'>>(
    'SELECT * FROM pictures WHERE header_id = ? ORDER BY place, id',
  );
  /** Writes down what changed; places count from 1 without gaps. */
  const arrange = (all: readonly Row<'pictures'>[]): void => {
    for (const [at, row] of all.entries()) if (row.place !== at + 1) rows.put({ ...row, place: at + 1 });
  };
  return {
    /** As they lie on disk, not yet checked. */
    rowsOf: (headerId: string): readonly StoredRow<'pictures'>[] => inOrder.all(headerId),
    list: (headerId: string): readonly Picture[] =>
      inOrder.all(headerId).map((row) => ({ id: row.id, ...pictureOf(row) })),
    find: (headerId: string, id: string): StoredRow<'pictures'> | null => rows.find(headerId, id) ?? null,
    /** Its file; null where that is gone or not what was put in. */
    file(row: Row<'pictures'>): Uint8Array | null {
      const found = files.find(row.header_id, row.id);
      return found && isIntact('picture_bytes', found) && sha256Of(found.bytes) === row.sha256 ? found.bytes : null;
    },
    /** As the last of its header. */
    add(headerId: string, picture: Picture, bytes: Uint8Array): void {
      const place = inOrder.all(headerId).length + 1;
      rows.insert({ header_id: headerId, place, ...cellsOf(picture), sha256: sha256Of(bytes) });
      files.insert({ header_id: headerId, id: picture.id, bytes });
    },
    setCaption: (row: Row<'pictures'>, caption: string): unknown => rows.put({ ...row, caption }),
    /** @param to its place among the others, from 0; the last where there are fewer */
    move(row: Row<'pictures'>, to: number): void {
      const others = inOrder.all(row.header_id).filter(({ id }) => id !== row.id);
      arrange(others.toSpliced(to, 0, { ...row, checksum: 0 }));
    },
    remove({ header_id, id }: Row<'pictures'>): void {
      files.remove(header_id, id);
      rows.remove(header_id, id);
      arrange(inOrder.all(header_id));
    },
  };
}

function cellsOf({ id, caption, mediaType, widthPx, heightPx }: Picture) {
  return { id, caption, media_type: mediaType, width_px: widthPx, height_px: heightPx };
}

export function factsOf(row: Row<'pictures'>): PictureFacts {
  return { ...pictureOf(row), sha256: row.sha256 };
}

function pictureOf({ caption, media_type, width_px, height_px }: Row<'pictures'>): Omit<Picture, 'id'> {
  return { caption, mediaType: media_type, widthPx: width_px, heightPx: height_px };
}

export function sha256Of(content: string | Uint8Array): string {
  return createHash('sha256').update(content).digest('hex');
}
