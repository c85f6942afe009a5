/** The header's figures in two lines over the chart: the target and its band, the spread and the worst primary. */

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
  const show = (mm: number | null) => (mm === null ? '–' : formatLength(mm, display));
  return (
    <dl className="match-summary">
      <Figure name={`Target, ${targetWords(header, report)}`} value={show(report.targetMm)} />
      <Figure name="Band" value={bandWords(mmOf(tolerance.minus), mmOf(tolerance.plus), display)} />
      <Figure name="Spread" value={show(report.spreadMm)} />
      {worst === undefined ? null : (
        <Figure name={`Worst, ${primaryTitle(worst.name)}`} value={verdictWords(worst, display)} />
      )}
    </dl>
  );
}

function Figure({ name, value }: { readonly name: string; readonly value: string }) {
  return (
    <div>
      <dt>{name}</dt>
      <dd>
        <FigureText text={value} />
      </dd>
    </div>
  );
}

function targetWords(header: Header, report: MatchReport): string {
  const source = report.primaries.find((match) => match.primaryId === report.targetPrimaryId);
  const name = source === undefined ? '' : `, ${primaryTitle(source.name)}`;
  switch (header.settings.target.kind) {
    case 'longest':
      return `longest${name}`;
    case 'primary':
      return name.slice(2) || 'chosen';
    case 'mean':
      return 'mean';
    case 'typed':
      return 'typed';
  }
}
