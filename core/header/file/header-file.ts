/** The open file format of a header: UTF-8 JSON text, read with suspicion and written in one stable order. */

import { failure, type Result, success } from '../../result.ts';
import type { Header } from '../header.ts';
import type { HeaderProblem } from '../header-problem.ts';
import { headerSchema } from '../schema.ts';
import { describeValue, firstProblems } from '../schema-problems.ts';
import { checkHeader } from './check-header.ts';
import { FILE_SIZE_LIMIT, readJson } from './read-json.ts';

export const HEADER_FORMAT = 'evenrun-header';
/** Raised when a file of the new shape could be misread by an older program. */
export const HEADER_FORMAT_VERSION = 1;
export const HEADER_FILE_EXTENSION = '.evenrun.json';

/** Parts of the Encoding Standard, which every place that core runs in provides; core's own types name no platform. */
declare const TextEncoder: new () => { encode(text: string): Uint8Array };
declare const TextDecoder: new (
  label: 'utf-8',
  options: { readonly fatal: true },
) => { decode(bytes: Uint8Array): string };

/**
 * Reads a header file. Texts come back in Unicode NFC and negative zero as zero; everything else is as it was written.
 * Never throws: whatever is wrong comes back as problems whose paths start at the header.
 */
export function readHeader(json: string): Result<Header, HeaderProblem> {
  const file = readJson(json);
  if (!file.ok) return failure(...file.problems.map(fromHeaderOn));
  const content = contentOf(file.value);
  return content.ok ? checkHeader(content.value) : content;
}

/** Paths of problems start at the header, whichever step finds them. */
function fromHeaderOn(problem: HeaderProblem): HeaderProblem {
  return problem.path[0] === 'header' ? { ...problem, path: problem.path.slice(1) } : problem;
}

/** Reads a header file from its bytes: UTF-8, with or without a byte order mark. Never throws. */
export function readHeaderBytes(bytes: Uint8Array): Result<Header, HeaderProblem> {
  if (bytes.length > FILE_SIZE_LIMIT) {
    return failure({ kind: 'unreadableFile', reason: 'tooLarge', path: [], detail: '10 MiB' });
  }
  const [first, second] = bytes;
  if ((first === 0xff && second === 0xfe) || (first === 0xfe && second === 0xff)) {
    return failure({ kind: 'unreadableFile', reason: 'notUtf8', path: [], detail: 'UTF-16' });
  }
  const text = decodeUtf8(bytes);
  if (text === null)
    return failure({ kind: 'unreadableFile', reason: 'notUtf8', path: [], detail: 'another encoding' });
  return readHeader(text);
}

function decodeUtf8(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(bytes);
  } catch {
    return null;
  }
}

/**
 * The header as the text of a file: two spaces of indent, keys in the order of the schema, a line end at the end. Equal
 * headers give equal text. `header` must be valid, as every header from readHeader or applyEdit is.
 *
 * A header of tens of thousands of pieces would come out larger than readHeader takes, half of it indent; it is written
 * without. Past that only notes of millions of letters lead: `exceedsFileSize` tells.
 */
export function writeHeader(header: Header): string {
  const file = { format: HEADER_FORMAT, version: HEADER_FORMAT_VERSION, header: headerSchema.parse(header) };
  const text = `${JSON.stringify(file, null, 2)}\n`;
  return exceedsFileSize(text) ? `${JSON.stringify(file)}\n` : text;
}

/** Whether a file of this text would be refused for its size. */
export function exceedsFileSize(text: string): boolean {
  return new TextEncoder().encode(text).length > FILE_SIZE_LIMIT;
}

/** Looks at format and version before anything else: a newer file must not be judged by this version's rules. */
function contentOf(file: unknown): Result<unknown, HeaderProblem> {
  const notAHeader = (detail: string) =>
    failure<HeaderProblem>({ kind: 'unreadableFile', reason: 'notAHeader', path: [], detail });
  if (typeof file !== 'object' || file === null || Array.isArray(file)) return notAHeader(describeValue(file));
  const fields = new Map<string, unknown>(Object.entries(file));
  if (fields.get('format') !== HEADER_FORMAT) return notAHeader(`format ${describeValue(fields.get('format'))}`);
  const version = fields.get('version');
  if (typeof version !== 'number' || !Number.isInteger(version) || version < 1) {
    const expected = `the whole number ${HEADER_FORMAT_VERSION}`;
    return failure({ kind: 'invalidValue', path: ['version'], expected, found: describeValue(version) });
  }
  if (version > HEADER_FORMAT_VERSION) {
    return failure({ kind: 'newerFormat', path: ['version'], found: version, supported: HEADER_FORMAT_VERSION });
  }
  const unknown = [...fields.keys()].filter((key) => key !== 'format' && key !== 'version' && key !== 'header');
  if (unknown.length > 0) {
    return failure(...firstProblems(unknown.map((key): HeaderProblem => ({ kind: 'unknownField', path: [key] }))));
  }
  return success(fields.get('header'));
}
