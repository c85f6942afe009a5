/** The primary in hand: its name, its length, how it stands, and the target. */

import {
  addsUpAsShown,
  formatLength,
  type LengthStyle,
  type MatchReport,
  type PrimaryMatch,
} from '../../core/index.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { SpokenStatus } from '../ui/spoken-status.tsx';
import { buildingWords, primaryTitle, verdictMark, verdictWords } from '../ui/words/verdict-words.ts';

interface Props {
  readonly match: PrimaryMatch;
  readonly report: MatchReport;
  readonly style: LengthStyle;
}

export function PrimaryHeading({ match, report, style }: Props) {
  const mark = match.verdict === null ? null : verdictMark(match.verdict).mark;
  const words = verdictWords(match, style);
  const title = primaryTitle(match.name);
  return (
    <header className="primary-heading">
      <h2 title={title}>{title}</h2>
      <p className="primary-length">
        <FigureText text={formatLength(match.lengthMm, style)} />
      </p>
      <p className="primary-verdict" aria-hidden="true" data-verdict={match.verdict ?? 'none'}>
        {mark === null ? null : <span className="verdict-mark">{mark} </span>}
        <FigureText text={words} />
      </p>
      <SpokenStatus text={`${title}: ${words}`} />
      <p className="to-go">
        <FigureText text={aboutTarget(match, report, style)} />
      </p>
    </header>
  );
}

/** What the verdict is from, or why there is none: `target 35 1/4"`, "still being built: 1 piece planned". */
export function aboutTarget(match: PrimaryMatch, report: MatchReport, style: LengthStyle): string {
  const { standing, building, deviationMm, lengthMm } = match;
  const { targetMm, targetPrimaryId } = report;
  const setter = report.primaries.find(({ primaryId }) => primaryId === targetPrimaryId);
  if (targetMm === null) {
    return setter === undefined
      ? 'The first primary with pieces sets the target.'
      : `${primaryTitle(setter.name)} sets the target and has no pieces yet.`;
  }
  // How far its end is from the inlet stands in the line below.
  if (building?.kind === 'openEnd') return 'still being built';
  if (building !== null) return buildingWords(building, style);
  if (standing === 'setsLength') return 'The others are matched to it.';
  const target = `target ${formatLength(targetMm, style)}`;
  if (standing === 'waiting') {
    const who = setter === undefined ? 'all' : primaryTitle(setter.name);
    return `${target} so far: ${who} still being built`;
  }
  // Three figures, each rounded on its own, need not add up as they are shown.
  const adds = deviationMm === null || addsUpAsShown([targetMm, deviationMm], lengthMm, style);
  return adds ? target : `${target} (figures rounded)`;
}
