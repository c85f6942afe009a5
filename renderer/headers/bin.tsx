/** Headers that were put away: kept until restored. */

import { useState } from 'react';
import { Button } from '../ui/button.tsx';
import { countOf } from '../ui/words/spoken.ts';
import { aboutHeader } from './header-row.tsx';
import type { HeaderSummary } from './header-summary.ts';

interface Props {
  readonly headers: readonly HeaderSummary[];
  readonly onRestore: (header: HeaderSummary) => void;
}

export function Bin({ headers, onRestore }: Props) {
  const [shown, setShown] = useState(false);
  return (
    <section className="bin" aria-labelledby="bin-title">
      <h2 className="visually-hidden" id="bin-title">
        Bin
      </h2>
      <Button look="quiet" aria-expanded={shown} onPress={() => setShown(!shown)}>
        {shown ? 'Hide the bin' : `Bin: ${countOf(headers.length, 'header')}`}
      </Button>
      {shown ? (
        <ul className="plain-list">
          {headers.map((header) => (
            <li key={header.headerId} className="header-row">
              <div className="header-row-main">
                <p className="header-row-name">{header.name}</p>
                <p className="muted">{aboutHeader(header)}</p>
              </div>
              <Button aria-label={`Restore ${header.name}`} onPress={() => onRestore(header)}>
                Restore
              </Button>
            </li>
          ))}
        </ul>
      ) : null}
    </section>
  );
}
