/** The match board on paper: every runner against the target on one scale, with its figure. */

import {
  formatDeviation,
  type Header,
  type MatchReport,
  mmOf,
  type PrimaryMatch,
  unitOf,
} from '../../../core/index.ts';
import { type DeviationScale, deviationScale, halfSpanMm } from '../../board/scale/deviation-scale.ts';
import { labelTicksMm } from '../../board/scale/length-ticks.ts';
import { FigureText, SvgFigureText } from '../../ui/figure-text.tsx';
import { primaryTitle, rowWords, verdictMark } from '../../ui/words/verdict-words.ts';

interface Props {
  readonly header: Header;
  readonly report: MatchReport;
}

/** Of the drawing's own units, which come to about a pixel on a sheet. */
const WIDTH = 340;
const ROW = 16;
const BAR = 8;
/** Of a character of a label. */
const CHARACTER = 7;
/** Left and right of the scale, so that its outermost labels are whole. */
const ROOM = 20;

/** None before there is a target. */
export function PrintBoard({ header, report }: Props) {
  if (report.targetMm === null) return null;
  const style = header.settings.display;
  const band = { minusMm: mmOf(header.settings.tolerance.minus), plusMm: mmOf(header.settings.tolerance.plus) };
  const deviationsMm = report.primaries.map(({ verdict, deviationMm }) => (verdict === null ? null : deviationMm));
  const halfMm = halfSpanMm({ deviationsMm, band, style });
  const scale = deviationScale(halfMm, WIDTH, ROOM);
  const range = { fromMm: -halfMm, toMm: halfMm, widthPx: WIDTH - 2 * ROOM };
  const ticks = labelTicksMm(range, (mm) => (formatDeviation(mm, style).length + 2) * CHARACTER, style);
  return (
    <table className="print-board print-pieces">
      <thead>
        <tr>
          <th scope="col">Primary</th>
          <th scope="col">
            <svg viewBox={`0 0 ${WIDTH} ${ROW}`} role="img" aria-label={`Off the target (${unitOf(style)})`}>
              {ticks.map((mm) => (
                <text key={mm} x={scale.x(mm)} y={ROW - 4} fontSize={10} textAnchor="middle">
                  <SvgFigureText text={formatDeviation(mm, style)} />
                </text>
              ))}
            </svg>
          </th>
          <th scope="col">Off the target</th>
        </tr>
      </thead>
      <tbody>
        {report.primaries.map((match) => (
          <tr key={match.primaryId}>
            <th scope="row">{primaryTitle(match.name)}</th>
            <td>
              <Bar match={match} scale={scale} band={band} />
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

interface BarProps {
  readonly match: PrimaryMatch;
  readonly scale: DeviationScale;
  readonly band: { readonly minusMm: number; readonly plusMm: number };
}

/** From the target to the tube's end; hollow while there is no verdict. */
function Bar({ match: { deviationMm, verdict }, scale, band }: BarProps) {
  const [low, zero, high] = [scale.x(-band.minusMm), scale.x(0), scale.x(band.plusMm)];
  const end = deviationMm === null ? zero : scale.x(deviationMm);
  const fill = verdict === null ? '#fff' : '#000';
  return (
    <svg viewBox={`0 0 ${WIDTH} ${ROW}`} aria-hidden="true">
      <rect x={low} width={high - low} height={ROW} fill="#ddd" />
      <rect
        x={Math.min(zero, end)}
        y={(ROW - BAR) / 2}
        width={Math.abs(end - zero)}
        height={BAR}
        fill={fill}
        stroke="#000"
      />
      <line x1={zero} x2={zero} y1={0} y2={ROW} stroke="#000" />
    </svg>
  );
}
