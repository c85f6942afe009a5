/** A finished header as one record: all that finishing freezes, and the one checksum over it. */

import * as z from 'zod';
import type { Header } from '../../../core/index.ts';
import { archiveRowSchema } from '../../bridge/archive-messages.ts';
import type { ReadOnly } from '../../bridge/dispatcher.ts';
import { timeLabel } from '../../bridge/messages.ts';
import { keptPlan } from '../../bridge/shelf-messages.ts';
import { type PictureFacts, sha256Of } from '../pictures/picture-table.ts';

export const FINISHED_FORMAT = 'evenrun-finished';
/** Raised when a record of the new shape could be misread by an older program. */
export const FINISHED_VERSION = 1;

const moment = timeLabel.refine((label) => !Number.isNaN(Date.parse(label)), 'no time');
/** As far as the columns of the archive reach. */
const sizeMm = z.number().min(0).max(1e9);

/** What is shown of a finished header without opening it. */
export const figuresSchema = archiveRowSchema
  .omit({ headerId: true, isDamaged: true })
  .extend({ finishedAt: moment, odMm: sizeMm, wallMm: sizeMm, targetMm: sizeMm, spreadMm: sizeMm });
export type FinishedFigures = ReadOnly<z.output<typeof figuresSchema>>;

/** Cut plans that were carried out and stood, the newest first: as many as there were. */
export const frozenPlansSchema = z.array(z.strictObject({ madeAt: moment, kept: keptPlan }));
export type FrozenPlans = ReadOnly<z.output<typeof frozenPlansSchema>>;

export interface FinishedRecord {
  /** With what was measured on it. */
  readonly header: Header;
  readonly figures: FinishedFigures;
  readonly plans: FrozenPlans;
  /** In their order. */
  readonly pictures: readonly PictureFacts[];
}

/**
 * The checksum of a finished header: SHA-256 (FIPS 180-4), hexadecimal, of the UTF-8 text of a JSON object in canonical form (RFC 8785: names in
 * order, no spaces) with the fields `format`, `version`, `header`, `figures`, `plans` and `pictures`. It covers the whole document with its
 * as-built readings, the figures and the time of finishing, the cut plans that stood, and of each picture its caption, type, size and
 * the SHA-256 of its file. The header's own id is left out: it says where a database keeps the header and not what it is, so
 * the same finished header has the same checksum in every database and file.
 *
 * It tells of whatever was altered since, by a disk or by hand. Whoever alters a header and works out its checksum anew has made
 * another finished header, and no checksum can tell of that.
 */
export function sealOf(record: FinishedRecord): string {
  return sha256Of(canonicalJson(bodyOf(record)));
}

/** The fields of a record in a file, but for what finds it and proves it. */
export function bodyOf({ header, figures, plans, pictures }: FinishedRecord) {
  const { id: _id, ...document } = header;
  return { format: FINISHED_FORMAT, version: FINISHED_VERSION, header: document, figures, plans, pictures };
}

/** RFC 8785: every value as ECMAScript's JSON.stringify writes it, without spaces, names in the order of their UTF-16 units. Fields that are undefined are not there. */
export function canonicalJson(value: unknown): string {
  if (typeof value !== 'object' || value === null) return JSON.stringify(value);
  if (Array.isArray(value)) return `[${value.map(canonicalJson).join(',')}]`;
  const fields = Object.entries(value).filter(([, inner]) => inner !== undefined);
  fields.sort(([a], [b]) => (a < b ? -1 : 1));
  return `{${fields.map(([name, inner]) => `${JSON.stringify(name)}:${canonicalJson(inner)}`).join(',')}}`;
}
