/** What a line of the entry line would do, before it is entered: the pieces, and the primary's length and verdict with them. */

import type { Header, Piece, Primary } from '../header/header.ts';
import { tubeOf } from '../header/header.ts';
import { type EntryNote, entryNotes } from '../header/parts/entry-notes.ts';
import { type EntryProblem, parseQuickEntry, pieceFromQuick } from '../header/parts/quick-entry.ts';
import { type Result, success } from '../result.ts';
import { unitOf } from '../units/length-style.ts';
import { type MatchReport, matchHeader, type PrimaryMatch } from './match-header.ts';

export interface EntryToRead {
  readonly text: string;
  readonly primary: Primary;
  /** Place in the primary, from 0, that the first piece would get. */
  readonly at: number;
  readonly decimalComma: boolean;
}

export interface EntryReadBack {
  /** In order, each with an id that no piece of a header has. */
  readonly pieces: readonly Piece[];
  readonly notes: readonly EntryNote[];
  /** Of the primary with the pieces in it. */
  readonly match: PrimaryMatch;
  readonly report: MatchReport;
}

/**
 * Reads a line as it would be entered at its place in a primary of `header`, and measures the header as it would be then.
 * The problem is the one that entering it would give. Cost as `matchHeader`.
 */
export function readBackEntry(header: Header, entry: EntryToRead): Result<EntryReadBack, EntryProblem> {
  const { text, primary, at, decimalComma } = entry;
  const { display, clr } = header.settings;
  const context = { unit: unitOf(display), clr, decimalComma, previous: primary.pieces[at - 1] ?? null };
  const read = parseQuickEntry(text, context);
  if (!read.ok) return read;
  // A space is in no id.
  const pieces = read.value.map((quick, index) => pieceFromQuick(quick, `to come ${index}`));
  const grown = { ...primary, pieces: primary.pieces.toSpliced(at, 0, ...pieces) };
  const primaries = header.primaries.map((candidate) => (candidate.id === primary.id ? grown : candidate));
  const report = matchHeader({ ...header, primaries });
  const match = report.primaries.find(({ primaryId }) => primaryId === primary.id);
  if (match === undefined) throw new Error(`Primary ${primary.id} is not in the header`);
  const notes = entryNotes(text, pieces, { od: tubeOf(header, primary).od, decimalComma });
  return success({ pieces, notes, match, report });
}
