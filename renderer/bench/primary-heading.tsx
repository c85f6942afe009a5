/** The primary in hand: its name, its length, its verdict, and how far there is to go. */

import { formatLength, type LengthStyle, type MatchReport, type PrimaryMatch, toGoMm } from '../../core/index.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { SpokenStatus } from '../ui/spoken-status.tsx';
import { primaryTitle, verdictMark, verdictWords } from '../ui/words/verdict-words.ts';

interface Props {
  readonly match: PrimaryMatch;
  readonly report: MatchReport;
  readonly style: LengthStyle;
}

export function PrimaryHeading({ match, report, style }: Props) {
  const mark = match.verdict === null ? null : verdictMark(match.verdict).mark;
  return (
    <header className="primary-heading">
      <h2>{primaryTitle(match.name)}</h2>
      <p className="primary-length">
        <FigureText text={formatLength(match.lengthMm, style)} />
      </p>
      <p className="primary-verdict" aria-hidden="true" data-verdict={match.verdict ?? 'none'}>
        {mark === null ? null : (
          <span className="verdict-mark" aria-hidden="true">
            {mark}{' '}
          </span>
        )}
        <FigureText text={verdictWords(match, style)} />
      </p>
      <SpokenStatus text={`${primaryTitle(match.name)}: ${verdictWords(match, style)}`} />
      <p className="to-go">
        <FigureText text={toGoWords(match, report, style)} />
      </p>
    </header>
  );
}

/** "3/16 in to go", and where the target comes from when it is this primary. */
export function toGoWords(match: PrimaryMatch, report: MatchReport, style: LengthStyle): string {
  if (report.targetMm === null) return 'The first primary with pieces sets the target.';
  if (report.targetPrimaryId === match.primaryId) return 'This primary sets the target.';
  const leftMm = toGoMm(match.lengthMm, report.targetMm);
  if (leftMm !== null) return `${formatLength(leftMm, style)} to go to ${formatLength(report.targetMm, style)}`;
  return `Target ${formatLength(report.targetMm, style)} reached`;
}
