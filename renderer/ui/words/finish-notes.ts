/** What a person should know of a header before it is frozen. */

import type { Header, MatchReport } from '../../../core/index.ts';
import { countOf } from './spoken.ts';
import { verdictWords } from './verdict-words.ts';

/** A sentence for each thing that looks unfinished; none when all is welded and in the band. */
export function finishNotes(header: Header, report: MatchReport): readonly string[] {
  const empty = header.primaries.filter((primary) => primary.pieces.length === 0);
  const outside = report.primaries.filter(({ verdict }) => verdict === 'short' || verdict === 'long');
  const unwelded = header.primaries.flatMap((primary) => primary.pieces).filter((piece) => piece.state !== 'welded');
  return [
    ...(header.primaries.length === 0 ? ['It has no primaries.'] : []),
    ...empty.map((primary) => `Primary ${primary.name} has no pieces.`),
    ...outside.map((match) => `Primary ${match.name} is ${verdictWords(match, header.settings.display)}.`),
    ...(unwelded.length > 0 ? [`${countOf(unwelded.length, 'piece')} not marked as welded.`] : []),
  ];
}

/** Why a header cannot be finished at all, in words; null when it can. */
export function whyNotFinish(header: Header): string | null {
  return header.primaries.some(({ pieces }) => pieces.length > 0) ? null : 'There are no pieces to finish yet.';
}
