/** As-built: what was measured on the finished tubes against their pieces, which entry may be wrong, and which joint to watch. */

import { useMemo } from 'react';
import { asBuilt, formatLength, type Header } from '../../core/index.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import type { AsBuiltProps } from './as-built-props.ts';
import { primaryVerdict } from './as-built-words.ts';
import { JointsPart } from './joints-part.tsx';
import { MisEntryPart } from './mis-entry-part.tsx';
import { ReadingsPart } from './readings-part.tsx';
import './asbuilt.css';

export function AsBuiltPanel(props: AsBuiltProps) {
  const { header, primary } = props;
  return (
    <div className="asbuilt">
      <ReadingsPart key={`readings ${primary.id}`} {...props} />
      <MisEntryPart key={`entry ${primary.id}`} {...props} />
      <section className="asbuilt-part" aria-label="All primaries as measured">
        <h3 className="asbuilt-heading">All primaries, as measured</h3>
        <AllPrimaries header={header} />
      </section>
      <JointsPart {...props} />
    </div>
  );
}

function AllPrimaries({ header }: { readonly header: Header }) {
  const { display } = header.settings;
  const built = useMemo(() => header.primaries.map((primary) => asBuilt(header, primary)), [header]);
  return (
    <div className="table-scroll">
      <table className="table">
        <thead>
          <tr>
            <th scope="col">Primary</th>
            <th scope="col" className="number">
              Centreline
            </th>
            <th scope="col">Tube against pieces</th>
          </tr>
        </thead>
        <tbody>
          {header.primaries.map(({ id, name }, index) => {
            const { centreline = null, lengths = [] } = built[index] ?? {};
            return (
              <tr key={id}>
                <th scope="row">{primaryTitle(name)}</th>
                <td className="number">
                  {centreline === null ? '–' : <FigureText text={formatLength(centreline.lengthMm, display)} />}
                </td>
                <td>
                  <FigureText text={primaryVerdict(lengths, display)} />
                </td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
