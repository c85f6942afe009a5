/** One finished header: its drawing, its figures, and the way to build the next one from it. */

import { formatLength } from '../../core/index.ts';
import type { ResponseOf } from '../../electron/bridge/contract.ts';
import { Button } from '../ui/button.tsx';
import { FigureText } from '../ui/figure-text.tsx';
import { StripPreview } from '../ui/strip-preview.tsx';
import { countOf, showDay } from '../ui/words/spoken.ts';

export type ArchiveRow = ResponseOf<'searchArchive'>['rows'][number];

interface Props {
  readonly row: ArchiveRow;
  readonly onLook: () => void;
  readonly onOpenAsNew: () => void;
  readonly onExport: () => void;
}

export function ArchiveRowView({ row, onLook, onOpenAsNew, onExport }: Props) {
  const length = (mm: number) => formatLength(mm, row.display);
  const primaries = countOf(row.primaries.length, 'primary', 'primaries');
  return (
    <li className="archive-row">
      <div className="archive-picture">
        <StripPreview primaries={row.primaries} title={`${row.name}: ${primaries}, drawn to scale`} />
      </div>
      <div className="archive-words">
        <div className="archive-name">
          <h2>{row.name}</h2>
          {row.note === '' ? null : (
            <p className="archive-note" title={row.note}>
              {row.note}
            </p>
          )}
        </div>
        <p className="muted">
          Finished {showDay(row.finishedAt)}. {primaries}, {row.material} <FigureText text={length(row.odMm)} /> OD.
        </p>
      </div>
      <dl className="archive-figures">
        <Figure name="Target" text={length(row.targetMm)} />
        <Figure name="Mean" text={length(row.meanMm)} />
        <Figure name="Spread" text={length(row.spreadMm)} />
      </dl>
      <div className="archive-acts">
        <Button aria-label={`Open as new header: ${row.name}`} onPress={onOpenAsNew}>
          Open as new header
        </Button>
        <Button look="quiet" aria-label={`View ${row.name}`} onPress={onLook}>
          View
        </Button>
        <Button look="quiet" aria-label={`Export ${row.name}`} onPress={onExport}>
          Export
        </Button>
      </div>
    </li>
  );
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
