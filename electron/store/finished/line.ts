/** A finished header as one line of an open file: JSON text that is written in one order and read with suspicion. */

import * as z from 'zod';
import {
  checkHeader,
  failure,
  idSchema,
  PICTURE_BYTES_LIMIT,
  PICTURES_LIMIT,
  type Problem,
  pictureTypeOf,
  type Result,
  readJson,
  success,
} from '../../../core/index.ts';
import { pictureContent, pictureShape } from '../../bridge/picture-messages.ts';
import { sha256Of } from '../pictures/picture-table.ts';
import {
  bodyOf,
  FINISHED_FORMAT,
  FINISHED_VERSION,
  type FinishedRecord,
  figuresSchema,
  frozenPlansSchema,
  sealOf,
} from './record.ts';

/** Twelve of the largest pictures in base64, and a header beside them; below what a request of the page may be. */
export const LINE_LIMIT = 14_000_000;
/** The pieces of a cut plan are the longest list. */
const LONGEST_LIST = 32_000;

export interface FinishedLine {
  /** Where the database that it came from kept it. */
  readonly id: string;
  /** `sealOf` the record. */
  readonly seal: string;
  readonly record: FinishedRecord;
  /** The files of its pictures, in their order. */
  readonly files: readonly Uint8Array[];
}

const hex64 = z.string().regex(/^[0-9a-f]{64}$/);

const lineSchema = z.strictObject({
  format: z.literal(FINISHED_FORMAT),
  version: z.literal(FINISHED_VERSION),
  checksum: hex64,
  id: idSchema,
  header: z.record(z.string(), z.unknown()),
  figures: figuresSchema,
  plans: frozenPlansSchema,
  pictures: z.array(z.strictObject({ ...pictureShape, sha256: hex64, content: pictureContent })).max(PICTURES_LIMIT),
});

/** Without a line end. Problems: `tooLargeToWrite`, of a header with notes of millions of letters. */
export function writeFinishedLine({ id, seal, record, files }: FinishedLine): Result<string, Problem> {
  const { format, version, pictures, ...body } = bodyOf(record);
  const withContent = pictures.map((picture, at) => ({ ...picture, content: base64Of(files[at]) }));
  const line = JSON.stringify({ format, version, checksum: seal, id, ...body, pictures: withContent });
  return line.length > LINE_LIMIT ? unreadable('tooLargeToWrite', LIMIT_WORDS) : success(line);
}

const LIMIT_WORDS = '14 MB';

function base64Of(file: Uint8Array | undefined): string {
  return Buffer.from(file ?? new Uint8Array()).toString('base64');
}

/**
 * Whatever is not a finished header just as it was written comes back as a problem: unreadableFile with the reasons of a header
 * file, `notFinished` for what is something else, and `altered` for what does not match its own checksums.
 */
export function readFinishedLine(text: string): Result<FinishedLine, Problem> {
  if (text.length > LINE_LIMIT) return unreadable('tooLarge', LIMIT_WORDS);
  const json = readJson(text, { sizeLimit: LINE_LIMIT, longestList: LONGEST_LIST });
  if (!json.ok) return json;
  const stranger = strangerProblem(json.value);
  if (stranger) return failure(stranger);
  const line = lineSchema.safeParse(json.value);
  if (!line.success) return unreadable('altered', String(line.error.issues[0]?.path[0] ?? ''));
  const { id, checksum, header, figures, plans, pictures } = line.data;
  const document = checkHeader({ id, ...header });
  if (!document.ok || document.value.state !== 'finished') return unreadable('altered', 'header');
  const files = pictures.map(({ content }) => Buffer.from(content, 'base64'));
  const isWhole = pictures.every((facts, at) => isFileOf(facts, files[at] ?? new Uint8Array()));
  if (!isWhole) return unreadable('altered', 'pictures');
  const record = {
    header: document.value,
    figures,
    plans,
    pictures: pictures.map(({ content: _, ...facts }) => facts),
  };
  return sealOf(record) === checksum
    ? success({ id, seal: checksum, record, files })
    : unreadable('altered', 'checksum');
}

/** Looked at before anything else: a newer line must not be judged by this version's rules. */
function strangerProblem(value: unknown): Problem | null {
  const fields: Readonly<Record<string, unknown>> = typeof value === 'object' && value !== null ? { ...value } : {};
  const { format, version } = fields;
  if (format !== FINISHED_FORMAT) return { kind: 'unreadableFile', reason: 'notFinished', path: [], detail: '' };
  if (typeof version !== 'number' || version <= FINISHED_VERSION) return null;
  return { kind: 'newerFormat', path: ['version'], found: version, supported: FINISHED_VERSION };
}

function isFileOf({ mediaType, sha256 }: FinishedRecord['pictures'][number], file: Uint8Array): boolean {
  return file.length <= PICTURE_BYTES_LIMIT && pictureTypeOf(file) === mediaType && sha256Of(file) === sha256;
}

function unreadable(
  reason: Extract<Problem, { kind: 'unreadableFile' }>['reason'],
  detail: string,
): Result<never, Problem> {
  return failure({ kind: 'unreadableFile', reason, path: [], detail });
}
