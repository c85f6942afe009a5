/** The chart of one header: every primary at full length with its pieces, and its deviation magnified beside it. */

import { type CSSProperties, type KeyboardEvent, memo, useId, useState } from 'react';
import type { Header, MatchReport, Primary, PrimaryMatch } from '../../core/index.ts';
import { SpokenStatus } from '../ui/spoken-status.tsx';
import './chart.css';
import { FigureText } from '../ui/figure-text.tsx';
import { readOutPiece } from '../ui/words/piece-words.ts';
import { bandWords, captionSentence, primaryTitle } from '../ui/words/verdict-words.ts';
import { ChartFoot } from './chart-foot.tsx';
import { ChartHead } from './chart-head.tsx';
import { chartKey, pieceIdAt, type ReadPiece } from './chart-keys.ts';
import { stripSegments } from './strip-layout.ts';
import { StripRow } from './strip-row.tsx';
import { type ChartScales, useChartScales } from './use-chart-scales.ts';

export interface ChartPreview {
  readonly after: Header;
  readonly report: MatchReport;
}

interface Props {
  readonly header: Header;
  readonly report: MatchReport;
  /** The header as a move would leave it, outlined in the rows that it changes; null: none is looked at. */
  readonly preview: ChartPreview | null;
  readonly primaryId: string | null;
  readonly pieceId: string | null;
  readonly onSelect: (primaryId: string, pieceId: string | null) => void;
}

export const MatchChart = memo(function MatchChart(props: Props) {
  const { header, report } = props;
  const style = header.settings.display;
  const scales = useChartScales(header, report);
  const [read, setRead] = useState<ReadPiece | null>(null);
  const captionId = useId();
  const { minusMm, plusMm } = scales.band;
  const spoken = readOut(header, report, read);
  return (
    <figure className="match-chart" aria-labelledby={captionId}>
      <ChartHead scales={scales} style={style} />
      <ChartRows {...props} scales={scales} read={read} onRead={setRead} />
      <ChartFoot report={report} deviation={scales.deviation} />
      <p className="chart-readout" aria-hidden="true">
        {spoken === null ? null : <FigureText text={spoken} />}
      </p>
      <SpokenStatus text={spoken ?? ''} />
      <figcaption id={captionId} className={spoken === null ? 'chart-caption' : 'visually-hidden'}>
        <FigureText text={captionSentence(report, bandWords(minusMm, plusMm, style), style)} />
      </figcaption>
    </figure>
  );
});

interface RowsProps extends Props {
  readonly scales: ChartScales;
  readonly read: ReadPiece | null;
  readonly onRead: (read: ReadPiece | null) => void;
}

/** Arrows go from piece to piece and from row to row, and the focus goes with them. */
function keyInRows(event: KeyboardEvent<HTMLElement>, { header, primaryId, read, onRead, onSelect }: RowsProps): void {
  const next = chartKey({ key: event.key, header, primaryId, read });
  if (next === null || event.ctrlKey || event.altKey || event.metaKey) return;
  event.preventDefault();
  onRead(next.read);
  if (next.primaryId === primaryId && !next.choose) return;
  onSelect(next.primaryId, next.choose ? pieceIdAt(header, next.read) : null);
  event.currentTarget.querySelector<HTMLElement>(`[data-primary="${next.primaryId}"]`)?.focus();
}

function ChartRows(props: RowsProps) {
  const { header, report, preview, primaryId, pieceId, onSelect, scales, read, onRead } = props;
  const hatchId = useId();
  return (
    <div
      className="chart-rows"
      role="listbox"
      aria-label="Primaries"
      tabIndex={-1}
      onKeyDown={(event) => keyInRows(event, props)}
      onPointerLeave={() => onRead(null)}
      style={{ '--rows': header.primaries.length } as CSSProperties}
    >
      <Hatch id={hatchId} />
      {header.primaries.map((primary, index) => {
        const match = report.primaries[index];
        if (match === undefined) return null;
        const isSelected = primary.id === primaryId;
        return (
          <StripRow
            key={primary.id}
            primary={primary}
            match={match}
            targetMm={report.targetMm}
            lowMm={report.lowMm}
            highMm={report.highMm}
            band={scales.band}
            full={scales.full}
            deviation={scales.deviation}
            style={header.settings.display}
            hatchId={hatchId}
            isSelected={isSelected}
            isTabStop={isSelected || (primaryId === null && index === 0)}
            preview={rowPreview(preview, { primary, match })}
            pieceId={isSelected ? pieceId : null}
            readIndex={read?.primaryId === primary.id ? read.index : null}
            onRead={onRead}
            onSelect={onSelect}
          />
        );
      })}
    </div>
  );
}

/** Null for a row that comes out as it is. */
function rowPreview(
  preview: ChartPreview | null,
  { primary, match }: { readonly primary: Primary; readonly match: PrimaryMatch },
): PrimaryMatch | null {
  const after = preview?.report.primaries.find(({ primaryId }) => primaryId === primary.id);
  if (after === undefined) return null;
  const hasMoved = after.deviationMm !== match.deviationMm;
  return hasMoved || !preview?.after.primaries.includes(primary) ? after : null;
}

/** Bends are told from straights by a hatch, never by hue. */
function Hatch({ id }: { readonly id: string }) {
  return (
    <svg className="chart-defs" aria-hidden="true" focusable="false">
      <defs>
        <pattern id={id} width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)">
          <line x1="0" y1="0" x2="0" y2="6" className="hatch-line" />
        </pattern>
      </defs>
    </svg>
  );
}

/** The line under the chart: the piece pointed at, in full. */
function readOut(header: Header, report: MatchReport, read: ReadPiece | null): string | null {
  const at = header.primaries.findIndex((primary) => primary.id === read?.primaryId);
  const primary = header.primaries[at];
  const lengthsMm = report.primaries[at]?.pieceLengthsMm;
  if (read === null || primary === undefined || lengthsMm === undefined) return null;
  const segment = stripSegments(primary.pieces, lengthsMm)[read.index];
  if (segment === undefined) return null;
  const place = { index: read.index, lengthMm: segment.toMm - segment.fromMm, runMm: segment.toMm };
  return `${primaryTitle(primary.name)}. ${readOutPiece(segment.piece, place, header.settings.display)}`;
}
