/** The header's figures in one line over the board: the target and its band, the spread and the worst primary. */

import { memo } from 'react';
import { formatLength, type Header, type MatchReport, mmOf } from '../../core/index.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { bandWords, primaryTitle, verdictWords } from '../ui/words/verdict-words.ts';

interface Props {
  readonly header: Header;
  readonly report: MatchReport;
}

export function MatchSummary({ header, report }: Props) {
  const { display, tolerance } = header.settings;
  const worst = report.primaries.find((match) => match.primaryId === report.worstPrimaryId);
  const band = bandWords(mmOf(tolerance.minus), mmOf(tolerance.plus), display);
  const target = report.targetMm === null ? 'none yet' : formatLength(report.targetMm, display);
  return (
    <dl className="match-summary">
      <Figure
        name="Target"
        value={report.targetMm === null ? target : `${target} ${band}`}
        note={targetWords(header, report)}
      />
      {report.spreadMm === null ? null : (
        <Figure name="Spread" value={formatLength(report.spreadMm, display)} note="" />
      )}
      {worst === undefined ? null : (
        <Figure name="Worst" value={verdictWords(worst, display)} note={primaryTitle(worst.name)} />
      )}
    </dl>
  );
}

interface FigureProps {
  readonly name: string;
  readonly value: string;
  /** What the value belongs to. */
  readonly note: string;
}

const Figure = memo(function Figure({ name, value, note }: FigureProps) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        <span className="summary-value">
          <FigureText text={value} />
        </span>
        {note === '' ? null : (
          <span className="summary-note" title={note}>
            {note}
          </span>
        )}
      </dd>
    </div>
  );
});

/** Where the target comes from. */
function targetWords(header: Header, report: MatchReport): string {
  const source = report.primaries.find((match) => match.primaryId === report.targetPrimaryId);
  const name = source === undefined ? '' : primaryTitle(source.name);
  const { target } = header.settings;
  switch (target.kind) {
    case 'longest':
      return name === '' ? 'the longest' : `${name}, the longest`;
    case 'primary':
      return name === '' ? 'a deleted primary' : name;
    case 'mean':
      return 'the mean';
    case 'typed':
      return target.tuned === undefined ? 'typed' : 'tuned start';
  }
}
