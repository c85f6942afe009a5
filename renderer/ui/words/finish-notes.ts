/** What a person should know of a header before it is frozen. */

import {
  formatLength,
  type Header,
  type HeaderClearances,
  type LengthStyle,
  type MatchReport,
  mmOf,
  type PrimaryMatch,
} from '../../../core/index.ts';
import { gapText } from './gap-text.ts';
import { countOf } from './spoken.ts';
import { buildingWords, primaryTitle, verdictWords } from './verdict-words.ts';

/** A sentence for each thing that looks unfinished; none when all is welded and in the band. */
export function finishNotes(header: Header, report: MatchReport, tight: HeaderClearances['tight']): readonly string[] {
  const style = header.settings.display;
  const empty = header.primaries.filter((primary) => primary.pieces.length === 0);
  const built = report.primaries.filter(({ building }) => building !== null);
  const outside = report.primaries.filter(({ verdict }) => verdict === 'short' || verdict === 'long');
  const unwelded = header.primaries.flatMap((primary) => primary.pieces).filter((piece) => piece.state !== 'welded');
  return [
    ...(header.primaries.length === 0 ? ['It has no primaries.'] : []),
    ...empty.map((primary) => `${primaryTitle(primary.name)} has no pieces.`),
    ...built.map((match) => `${primaryTitle(match.name)}: ${stillBuilt(match, style)}.`),
    ...outside.map((match) => `${primaryTitle(match.name)} is ${verdictWords(match, style)}.`),
    ...tightNotes(header, tight),
    ...(unwelded.length > 0 ? [`${countOf(unwelded.length, 'piece')} not marked as welded.`] : []),
  ];
}

/** How many gaps are under the minimum clearance, and the least of them. */
function tightNotes(header: Header, tight: HeaderClearances['tight']): readonly string[] {
  const [least] = tight;
  if (least === undefined) return [];
  const { display, wantedGap } = header.settings;
  const minimum = formatLength(mmOf(wantedGap), display);
  return [
    `${countOf(tight.length, 'gap')} under the minimum clearance of ${minimum}; the least: ${gapText(least, header)}. See Fit.`,
  ];
}

/** `to go 3 5/8", still being built: 1 piece planned`. */
function stillBuilt(match: PrimaryMatch, style: LengthStyle): string {
  if (match.building === null) return verdictWords(match, style);
  const why = buildingWords(match.building, style);
  return match.standing === 'building' ? `${verdictWords(match, style)}, ${why}` : why;
}

/** Why a header cannot be finished at all, in words; null when it can. */
export function whyNotFinish(header: Header): string | null {
  return header.primaries.some(({ pieces }) => pieces.length > 0) ? null : 'There are no pieces to finish yet.';
}
