/** One finished header: its drawing, its figures, and the ways to build the next one from it. */

import { memo } from 'react';
import { describeLikeness, formatLength } from '../../core/index.ts';
import type { ResponseOf } from '../../electron/bridge/contract.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { StripPreview } from '../ui/strip-preview.tsx';
import { countOf, showDay } from '../ui/words/spoken.ts';
import { heightOf, widthOf } from './drawing-layout.ts';
import { FlatPicture } from './flat-picture.tsx';
import type { RowDrawing } from './use-drawings.ts';

export type ArchiveRow = ResponseOf<'searchArchive'>['rows'][number];
export type Like = NonNullable<ResponseOf<'searchArchive'>['like']>;

/** What can be done with any row; the same for as long as the screen stands, so that rows are not drawn again for nothing. */
export interface RowActs {
  readonly look: (row: ArchiveRow) => void;
  readonly openAsNew: (row: ArchiveRow, as: 'again' | 'mirrored') => void;
  readonly exportFile: (row: ArchiveRow) => void;
  readonly findSimilar: (row: ArchiveRow) => void;
  /** With the header that a comparison has begun with, or else begins one. */
  readonly compare: (row: ArchiveRow) => void;
  /** Opens the menu of the row on its button. */
  readonly showMore: (row: ArchiveRow, button: HTMLElement) => void;
}

interface Props {
  readonly row: ArchiveRow;
  readonly drawing: RowDrawing | null;
  /** Whom the list is in order of likeness to. */
  readonly like: Like | null;
  /** Name of the header that a comparison has begun with; null: none has. */
  readonly compareWith: string | null;
  /** Whether its menu hangs on it. */
  readonly isMenuOpen: boolean;
  readonly acts: RowActs;
}

export const ArchiveRowView = memo(function ArchiveRowView(props: Props) {
  const { row, drawing, like } = props;
  const length = (mm: number) => formatLength(mm, row.display);
  const about = `${countOf(row.primaryCount, 'primary', 'primaries')}, ${row.material}`;
  return (
    <li className="archive-row">
      {/* The words beside it say what it is of. */}
      <div className="archive-picture" aria-hidden="true">
        {drawing === null ? null : <RowPicture drawing={drawing} />}
      </div>
      <div className="archive-words">
        <div className="archive-name">
          <h2 title={row.name}>{row.name}</h2>
          {row.note === '' ? null : (
            <p className="archive-note" title={row.note}>
              {row.note}
            </p>
          )}
        </div>
        <p className="archive-about muted">
          {row.isDamaged ? <strong className="archive-damaged">Damaged: not as it was finished. </strong> : null}
          {showDay(row.finishedAt)}, {about} <FigureText text={length(row.odMm)} /> OD
          {like === null ? null : (
            <>
              {': '}
              <FigureText text={describeLikeness(like, row, row.display)} />
            </>
          )}
        </p>
      </div>
      <dl className="archive-figures">
        <Figure name="Target" text={row.targetMm === 0 ? 'none' : length(row.targetMm)} />
        <Figure name="Mean" text={row.meanMm === 0 ? 'none' : length(row.meanMm)} />
        <Figure name="Spread" text={row.meanMm === 0 || row.primaryCount < 2 ? 'none' : length(row.spreadMm)} />
      </dl>
      <RowButtons {...props} />
    </li>
  );
});

/** Plain buttons: dozens of them come and go with every key in the search, and must not keep it waiting. */
function RowButtons({ row, compareWith, isMenuOpen, acts }: Props) {
  const isComparing = compareWith !== null;
  return (
    <div className="archive-acts">
      <button
        type="button"
        className="button button-plain"
        aria-label={`Open as new header: ${row.name}`}
        onClick={() => acts.openAsNew(row, 'again')}
      >
        Open as new
      </button>
      <button
        type="button"
        className="button button-quiet"
        aria-label={isComparing ? `Compare ${row.name} with ${compareWith}` : `View ${row.name}`}
        onClick={() => (isComparing ? acts.compare(row) : acts.look(row))}
      >
        {isComparing ? 'Compare' : 'View'}
      </button>
      <button
        type="button"
        className="button button-quiet"
        aria-label={`More for ${row.name}`}
        aria-haspopup="menu"
        aria-expanded={isMenuOpen}
        onClick={(event) => acts.showMore(row, event.currentTarget)}
      >
        More
      </button>
    </div>
  );
}

/** About as large as a row's picture is drawn, in CSS pixels. */
const PICTURE = { width: 120, height: 44 } as const;

function RowPicture({ drawing }: { readonly drawing: RowDrawing }) {
  if (drawing.kind === 'strips') return <StripPreview primaries={drawing.primaries} title="" />;
  const { bounds } = drawing.drawing;
  const mmAPixel = Math.max(widthOf(bounds) / PICTURE.width, heightOf(bounds) / PICTURE.height);
  return <FlatPicture drawing={drawing.drawing} lineMm={mmAPixel} title="" />;
}

function Figure({ name, text }: { readonly name: string; readonly text: string }) {
  return (
    <div>
      <dt className="muted">{name}</dt>
      <dd className="figure-text">
        <FigureText text={text} />
      </dd>
    </div>
  );
}
