/** One stock item drawn to scale, with what is cut from it. Told apart by outline, hatch and word; colour means selection only. */

import { useId } from 'react';
import type { CutStock, StockRow, Stretch } from '../../../core/index.ts';
import { type PlacedPieces, pieceMark } from './plan-pieces.ts';
import { boxOf, stockShape, stretchPath } from './stock-shape.ts';

interface Props {
  readonly row: StockRow;
  readonly item: CutStock;
  readonly pieces: PlacedPieces;
  /** What the picture is of, for those who do not see it. */
  readonly title: string;
  /** Place of the chosen step in the item's work; null: none is chosen. */
  readonly chosen: number | null;
  readonly onChoose: (step: number) => void;
}

/** Room for a picture, px; a small item is drawn no larger than a pixel a millimetre. */
const ROOM = { width: 620, height: 210, most: 1 } as const;
const MARGIN_PX = 12;

export function StockPicture({ row, item, pieces, title, chosen, onChoose }: Props) {
  const hatch = `scrap${useId().replace(/[^A-Za-z0-9]/g, '')}`;
  const box = boxOf(row);
  const scale = Math.min(ROOM.most, ROOM.width / box.width, ROOM.height / box.height);
  const margin = MARGIN_PX / scale;
  const view = [box.x - margin, box.y - margin, box.width + 2 * margin, box.height + 2 * margin];
  const steps = stepOfEach(item.stretches);
  return (
    <svg
      className="cut-picture"
      viewBox={view.join(' ')}
      width={box.width * scale + 2 * MARGIN_PX}
      height={box.height * scale + 2 * MARGIN_PX}
      role="img"
      aria-label={title}
    >
      <defs>
        <pattern id={hatch} width={6 / scale} height={6 / scale} patternUnits="userSpaceOnUse">
          <path className="cut-hatch" d={`M0 ${6 / scale}L${6 / scale} 0`} />
        </pattern>
      </defs>
      {item.stretches.map((stretch, at) => (
        // biome-ignore lint/a11y/noStaticElementInteractions: the rows of the cut list do the same by keyboard
        <path
          key={stretch.fromMm}
          className={`cut-stretch cut-${stretch.kind}`}
          data-chosen={chosen !== null && chosen === steps[at] ? '' : undefined}
          d={stretchPath(row, stretch.fromMm, stretch.toMm)}
          style={stretch.kind === 'scrap' ? { fill: `url(#${hatch})` } : undefined}
          onClick={() => onChoose(steps[at] ?? 0)}
        />
      ))}
      <Marks {...{ row, item, pieces, scale }} />
    </svg>
  );
}

/** What is written on the tube, on the stretches with room for it. */
function Marks({ row, item, pieces, scale }: Pick<Props, 'row' | 'item' | 'pieces'> & { readonly scale: number }) {
  const { placeAt } = stockShape(row);
  return item.stretches.map((stretch) => {
    const text = markOf(stretch, pieces);
    const [x, y] = placeAt((stretch.fromMm + stretch.toMm) / 2, 0);
    if ((stretch.toMm - stretch.fromMm) * scale < LETTER_PX * text.length) return null;
    return (
      <text key={stretch.fromMm} className="cut-mark" x={x} y={y} style={{ fontSize: `${FONT_PX / scale}px` }}>
        {text}
      </text>
    );
  });
}

const FONT_PX = 13;
const LETTER_PX = 8;

function markOf(stretch: Stretch, pieces: PlacedPieces): string {
  if (stretch.kind === 'remnant') return 'keep';
  if (stretch.kind !== 'piece') return '';
  const placed = pieces.get(stretch.pieceId);
  return placed === undefined ? '' : pieceMark(placed);
}

/** The step of the cut list that each stretch belongs to: a cut ends one. */
export function stepOfEach(stretches: readonly Stretch[]): readonly number[] {
  let step = 0;
  return stretches.map((stretch) => {
    const own = step;
    if (stretch.kind === 'cut') step += 1;
    return own;
  });
}
