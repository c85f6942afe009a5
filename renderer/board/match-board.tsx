/** The match board of one header: every primary's end against the target, on one scale, one row a primary. */

import { type CSSProperties, memo, useId, useState } from 'react';
import type { Header, MatchReport } from '../../core/index.ts';
import { SpokenStatus } from '../ui/spoken-status.tsx';
import './board.css';
import { FigureText } from '../ui/figure-text.tsx';
import { readOutPiece } from '../ui/words/piece-words.ts';
import { bandWords, captionSentence, primaryTitle } from '../ui/words/verdict-words.ts';
import { BoardHead } from './board-head.tsx';
import { orderOf } from './board-order.ts';
import type { BoardProps } from './board-props.ts';
import type { ReadPiece } from './rows/board-keys.ts';
import { BoardRows } from './rows/board-rows.tsx';
import { type OpenTool, RowTools } from './rows/row-tools.tsx';
import { useBoardScales } from './scale/use-board-scales.ts';
import { stripSegments } from './strip/strip-layout.ts';

export const MatchBoard = memo(function MatchBoard(props: BoardProps) {
  const { header, report, primaryId, order, acts } = props;
  const style = header.settings.display;
  const scales = useBoardScales(header, report);
  const [read, setRead] = useState<ReadPiece | null>(null);
  const [open, setOpen] = useState<OpenTool>(null);
  const captionId = useId();
  const rows = orderOf(report, order);
  const { minusMm, plusMm } = scales.band;
  const spoken = readOut(header, report, read);
  const place = header.primaries.findIndex(({ id }) => id === primaryId);
  const inHand = header.primaries[place];
  const rowInHand = rows.indexOf(place);
  return (
    <figure className="match-board" aria-labelledby={captionId}>
      <BoardHead
        deviation={scales.deviation}
        trackRef={scales.trackRef}
        style={style}
        order={order}
        onOrder={props.onOrder}
      />
      <div className="board-body" ref={scales.boardRef} style={{ '--row-in-hand': rowInHand } as CSSProperties}>
        <BoardRows {...props} scales={scales} rows={rows} read={read} onRead={setRead} onOpen={setOpen} />
        {acts === null || inHand === undefined ? null : (
          <RowTools
            primaryId={inHand.id}
            name={inHand.name}
            neighbourId={(header.primaries[place + 1] ?? header.primaries[place - 1])?.id ?? null}
            canGoUp={order === 'port' && place > 0}
            canGoDown={order === 'port' && place < header.primaries.length - 1}
            acts={acts}
            open={open}
            onOpen={setOpen}
          />
        )}
      </div>
      <div className="board-foot">
        {acts === null ? null : (
          <button type="button" className="board-add" onClick={acts.add}>
            + Add primary
          </button>
        )}
        <p className="board-readout" aria-hidden="true">
          {spoken === null ? null : <FigureText text={spoken} />}
        </p>
      </div>
      <SpokenStatus text={spoken ?? ''} />
      <figcaption id={captionId} className="visually-hidden">
        {captionSentence(report, bandWords(minusMm, plusMm, style), style)}
      </figcaption>
    </figure>
  );
});

/** The line under the board: the piece pointed at, in full. */
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
