/** The board's figures as a table. */

import { memo, useMemo } from 'react';
import {
  formatDeviation,
  formatLength,
  formatLengthBare,
  type Header,
  type MatchReport,
  unitOf,
} from '../../core/index.ts';
import { useSettled } from '../ui/hooks/use-settled.ts';
import './board.css';
import { FigureText } from '../ui/figure-text.tsx';
import { verdictMark, verdictWords } from '../ui/words/verdict-words.ts';

interface Props {
  readonly header: Header;
  readonly report: MatchReport;
  /** Kept for screen readers when it is not shown. */
  readonly isShown: boolean;
}

/** Where it is not in sight it follows a moment later, and takes no time from the frame that shows an edit. */
export function FiguresTable({ header, report, isShown }: Props) {
  const now = useMemo(() => ({ header, report }), [header, report]);
  const soon = useSettled(now);
  return <Figures {...(isShown ? now : soon)} isShown={isShown} />;
}

const Figures = memo(function Figures({ header, report, isShown }: Props) {
  const style = header.settings.display;
  const unit = unitOf(style);
  const show = (mm: number | null) => (mm === null ? '–' : formatLength(mm, style));
  return (
    <div className={isShown ? 'figures' : 'figures visually-hidden'}>
      <table>
        <caption>
          <FigureText
            text={`Target ${show(report.targetMm)}, band ${show(report.lowMm)} to ${show(report.highMm)}. Spread ${show(report.spreadMm)}, mean ${show(report.meanMm)}. Figures are rounded.`}
          />
        </caption>
        <thead>
          <tr>
            <th scope="col">Primary</th>
            <th scope="col">Pieces</th>
            <th scope="col">Length ({unit})</th>
            <th scope="col">Deviation ({unit})</th>
            <th scope="col">Verdict</th>
          </tr>
        </thead>
        <tbody>
          {report.primaries.map((match) => (
            <tr key={match.primaryId}>
              <th scope="row">{match.name}</th>
              <td>{match.pieceLengthsMm.length}</td>
              <td>
                <FigureText text={formatLengthBare(match.lengthMm, style)} />
              </td>
              <td>
                {match.deviationMm === null ? '–' : <FigureText text={formatDeviation(match.deviationMm, style)} />}
              </td>
              <td>
                {match.verdict === null ? (
                  <FigureText text={verdictWords(match, style)} />
                ) : (
                  `${verdictMark(match.verdict).mark} ${verdictMark(match.verdict).word}`
                )}
              </td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
});
