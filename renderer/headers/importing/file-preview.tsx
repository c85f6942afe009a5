/** The contents of a file about to be imported: what would come in, and every line that would not. */

import {
  describeProblem,
  formatLength,
  type Header,
  type LengthStyle,
  mmOf,
  namesInHeader,
  type Primary,
  primaryLength,
} from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { StripPreview, stripsOf } from '../../ui/strip-preview.tsx';
import { commasWords } from '../../ui/words/problem-words.ts';
import { countOf } from '../../ui/words/spoken.ts';
import type { Preview } from './given-preview.ts';
import { takeInWords } from './stock-beside-shelf.ts';
import { StockPreview } from './stock-preview.tsx';

type Refused = Extract<Preview, { kind: 'parts' }>['refused'];

/** Lengths of a parts list are shown fine enough that nothing typed looks rounded. */
const FINE: LengthStyle = { kind: 'fraction', per: 64 };

/** The words on the button that imports; null when there is nothing to import. */
export function acceptWords(preview: Preview): string | null {
  switch (preview.kind) {
    case 'header':
      return 'Import as a new header';
    case 'parts':
      return preview.primaries.length === 0
        ? null
        : `Make a header of ${countOf(preview.primaries.length, 'primary', 'primaries')}`;
    case 'stock':
      return takeInWords(preview);
  }
}

/** The words on the button that adds a parts list to the open header; null where that cannot be done. */
export function addWords(preview: Preview, openHeader: Header | null): string | null {
  if (preview.kind !== 'parts' || preview.primaries.length === 0 || openHeader?.state !== 'open') return null;
  return `Add ${countOf(preview.primaries.length, 'primary', 'primaries')} to ${openHeader.name}`;
}

/** What the open header would call primaries whose names it has already; null when all keep theirs. */
export function renamedWords(preview: Preview, openHeader: Header | null): string | null {
  if (preview.kind !== 'parts' || addWords(preview, openHeader) === null || openHeader === null) return null;
  const names = namesInHeader(openHeader, preview.primaries);
  const changes = preview.primaries.flatMap(({ name }, index) => {
    const given = names[index] ?? name;
    return given === name ? [] : [`${name} becomes ${given}`];
  });
  return changes.length === 0 ? null : `These names are taken in ${openHeader.name}: ${changes.join(', ')}.`;
}

interface FilePreviewProps {
  readonly preview: Preview;
  /** Null while none is open. */
  readonly openHeader: Header | null;
}

export function FilePreview({ preview, openHeader }: FilePreviewProps) {
  switch (preview.kind) {
    case 'header':
      return (
        <>
          <p>
            <strong>{preview.header.name}</strong>
            {preview.header.note === '' ? '' : `: ${preview.header.note}`}
          </p>
          <StripPreview primaries={stripsOf(preview.header)} title={`Primaries of ${preview.header.name}`} />
          <PrimariesTable
            primaries={preview.header.primaries}
            shrinkageMm={mmOf(preview.header.settings.weldShrinkage)}
            style={preview.header.settings.display}
          />
        </>
      );
    case 'parts':
      return (
        <>
          <RefusedLines refused={preview.refused} />
          <CommasRead commas={preview.commas} />
          <PrimariesTable primaries={preview.primaries} shrinkageMm={0} style={FINE} />
          <p className="muted">{renamedWords(preview, openHeader)}</p>
        </>
      );
    case 'stock':
      return (
        <>
          <RefusedLines refused={preview.refused} />
          <CommasRead commas={preview.commas} />
          <StockPreview stock={preview} />
        </>
      );
  }
}

/** How the columns with decimal commas were read, by the first of them. */
function CommasRead({ commas }: { readonly commas: readonly string[] }) {
  return commas.length === 0 ? null : <p>{commasWords(commas)}</p>;
}

interface PrimariesTableProps {
  readonly primaries: readonly Primary[];
  readonly shrinkageMm: number;
  readonly style: LengthStyle;
}

function PrimariesTable({ primaries, shrinkageMm, style }: PrimariesTableProps) {
  return (
    <table className="table">
      <caption className="visually-hidden">Primaries in the file</caption>
      <thead>
        <tr>
          <th scope="col">Primary</th>
          <th scope="col" className="number">
            Pieces
          </th>
          <th scope="col" className="number">
            Length
          </th>
        </tr>
      </thead>
      <tbody>
        {primaries.map((primary) => (
          <tr key={primary.id}>
            <td>{primary.name}</td>
            <td className="number">{primary.pieces.length}</td>
            <td className="number">
              <FigureText text={formatLength(primaryLength(primary, { shrinkageMm }), style)} />
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}

function RefusedLines({ refused }: { readonly refused: Refused }) {
  if (refused.length === 0) return <p>Every line could be read.</p>;
  // A line is refused once, however much is wrong with it.
  const lines = new Set(refused.map(({ line }) => line)).size;
  return (
    <section aria-label="Lines left out">
      <h3>{countOf(lines, 'line')} could not be read and will be left out</h3>
      <ul className="import-refused">
        {refused.map((line) => (
          <li key={`${line.line} ${line.column ?? ''} ${describeProblem(line.problem)}`}>
            Line {line.line}
            {line.column === null ? '' : `, ${line.column}`}: <FigureText text={describeProblem(line.problem)} />
          </li>
        ))}
      </ul>
    </section>
  );
}
