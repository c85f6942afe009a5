/** The columns of every table, in their order, with the types that their cells have; the checksum, the last, is left out. */

import type { MovementReason } from '../../../core/index.ts';

const text = '';
const int = 0;
const real = 0;
const intOrNull = null as number | null;
const bytes: Uint8Array = new Uint8Array();

/** What each is for is written with the schema. */
const COLUMNS = {
  headers: { id: text },
  journal: {
    place: int,
    header_id: text,
    revision: int,
    step_id: text,
    action: text as 'make' | 'do' | 'undo' | 'redo',
    of_revision: intOrNull,
    undo_next: intOrNull,
    redo_next: intOrNull,
    label: text,
    edit: text,
    inverse: text,
    changed_at: int,
    name: text,
    state: text as 'open' | 'finished',
    primary_count: int,
    piece_count: int,
    before: int,
  },
  snapshots: { header_id: text, edit_meaning: int, revision: int, chain: int, document: text },
  archive: {
    place: int,
    header_id: text,
    words: text,
    material: text,
    od_mm: real,
    wall_mm: real,
    primary_count: int,
    target_mm: real,
    spread_mm: real,
    finished_at: int,
    figures: text,
    plans: text,
    seal: text,
  },
  pictures: {
    header_id: text,
    id: text,
    place: int,
    caption: text,
    media_type: text as 'image/jpeg' | 'image/png',
    width_px: int,
    height_px: int,
    sha256: text,
  },
  picture_bytes: { header_id: text, id: text, bytes },
  bin: { header_id: text, binned_at: text },
  drafts: { header_id: text, field: text, text },
  shelf_steps: {
    place: int,
    id: text,
    action: text as 'do' | 'undo' | 'redo',
    of_place: intOrNull,
    label: text,
    touched: text,
    first_movement: int,
    movement_count: int,
    made_at: int,
  },
  stock: { place: int, id: text, revision: int, step: int, is_retired: int, item: text },
  movements: {
    place: int,
    item_id: text,
    request_id: text,
    pieces: int,
    reason: text as MovementReason,
    moved_at: int,
  },
  cut_plans: { step: int, header_id: text, document: text },
  requests: { place: int, id: text, asked: int, answer: text },
  settings: { name: text, value: text },
};

export type Table = keyof typeof COLUMNS;
export const TABLES = Object.keys(COLUMNS) as readonly Table[];
/** A row as it is written, before it has its checksum. */
export type Row<Name extends Table> = Readonly<(typeof COLUMNS)[Name]>;
export type StoredRow<Name extends Table> = Row<Name> & { readonly checksum: number };
export type Cell = string | number | Uint8Array | null;

/** Names of the columns that a row's checksum covers, in the order in which it does. */
export function columnsOf<Name extends Table>(table: Name): readonly (keyof Row<Name> & string)[] {
  return Object.keys(COLUMNS[table]) as (keyof Row<Name> & string)[];
}
