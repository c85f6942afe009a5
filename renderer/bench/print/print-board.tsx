/** The match board on paper: every runner against the target on one scale, with its figure. */

import { type Header, type MatchReport, mmOf } from '../../../core/index.ts';
import { Bar } from '../../board/rows/board-bar.tsx';
import { BoardAxis } from '../../board/scale/board-axis.tsx';
import { deviationScale, halfSpanMm } from '../../board/scale/deviation-scale.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { primaryTitle, rowWords, verdictMark } from '../../ui/words/verdict-words.ts';

interface Props {
  readonly header: Header;
  readonly report: MatchReport;
}

const WIDTH_PX = 340;
/** Beside the scale: its words stand in a column of their own, and only the unit needs a place. */
const ROOM_PX = 28;

/** None before there is a target. */
export function PrintBoard({ header, report }: Props) {
  if (report.targetMm === null) return null;
  const style = header.settings.display;
  const band = { minusMm: mmOf(header.settings.tolerance.minus), plusMm: mmOf(header.settings.tolerance.plus) };
  const deviationsMm = report.primaries.map(({ verdict, deviationMm }) => (verdict === null ? null : deviationMm));
  const scale = deviationScale(halfSpanMm({ deviationsMm, band, style }), WIDTH_PX, ROOM_PX);
  return (
    <table className="print-board print-pieces">
      <thead>
        <tr>
          <th scope="col">Primary</th>
          <th scope="col">
            <span className="visually-hidden">Bar</span>
            <BoardAxis scale={scale} style={style} />
          </th>
          <th scope="col">Off the target</th>
        </tr>
      </thead>
      <tbody>
        {report.primaries.map((match) => (
          <tr key={match.primaryId}>
            <th scope="row">{primaryTitle(match.name)}</th>
            <td className="print-bar">
              <Bar match={match} preview={null} scale={scale} band={band} />
            </td>
            <td>
              {match.verdict === null ? '' : `${verdictMark(match.verdict).mark} `}
              <FigureText text={rowWords(match, style)} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
