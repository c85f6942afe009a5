/** Gaps between tubes, of a tube with itself and to obstacles, with what is wanted and what is under it. */

import { useMemo, useState } from 'react';
import {
  gapsInOrder,
  type Header,
  type HeaderGap,
  headerClearances,
  setSettingsEdit,
  unitOf,
} from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { LengthField } from '../ui/fields/length-field.tsx';
import { FigureText } from '../ui/figure-text.tsx';
import { gapText } from '../ui/words/gap-text.ts';
import { wordsFor } from '../ui/words/problem-words.ts';
import { countOf } from '../ui/words/spoken.ts';
import { useAfterPaint } from '../view/use-after-paint.ts';
import { gapVerdict, gapWords } from './gap-words.ts';
import type { ShapeProps } from './shape-props.ts';

const SHOWN_AT_FIRST = 8;

export function ClearancePanel({ session, header }: ShapeProps) {
  // Nothing is worked out in the frame that shows an edit; the gaps follow it.
  const settled = useAfterPaint(header);
  const { gaps, tight, problems } = useMemo(() => headerClearances(settled), [settled]);
  const [showsAll, setShowsAll] = useState(false);
  const ordered = gapsInOrder(gaps);
  const shown = showsAll ? ordered : ordered.slice(0, Math.max(SHOWN_AT_FIRST, tight.length));
  return (
    <div className="shape-stack">
      <div className="gap-head">
        {header.state === 'open' ? (
          <LengthField
            label="Minimum clearance"
            value={header.settings.wantedGap}
            unit={unitOf(header.settings.display)}
            onTake={(wantedGap) => session.apply(setSettingsEdit({ wantedGap }))}
          />
        ) : null}
        <p className="shape-finding" role="status">
          <FigureText text={leastWords(ordered, tight.length, settled)} />
        </p>
      </div>
      {shown.length === 0 ? null : <GapTable gaps={shown} header={settled} />}
      {ordered.length > shown.length ? (
        <Button onPress={() => setShowsAll(true)}>Show all {ordered.length} gaps</Button>
      ) : null}
      {problems.length === 0 ? null : (
        <p className="view-note">
          Left out: <FigureText text={wordsFor(problems)} />
        </p>
      )}
    </div>
  );
}

function leastWords(ordered: readonly HeaderGap[], tightCount: number, header: Header): string {
  const [least] = ordered;
  if (least === undefined) return 'No gaps yet: no two tubes have a place.';
  const { between } = gapWords(least, header);
  const gap = gapText(least, header);
  const under = tightCount === 0 ? 'None is under the minimum.' : `${countOf(tightCount, 'gap')} under the minimum.`;
  return `Smallest gap: ${gap}, ${between}. ${under}`;
}

function GapTable({ gaps, header }: { readonly gaps: readonly HeaderGap[]; readonly header: Header }) {
  return (
    <div className="table-scroll">
      <table className="table">
        <thead>
          <tr>
            <th scope="col">Between</th>
            <th scope="col">At</th>
            <th scope="col" className="number">
              Gap
            </th>
            <th scope="col">Clearance</th>
          </tr>
        </thead>
        <tbody>
          {gaps.map((gap) => {
            const { key, between, where } = gapWords(gap, header);
            return (
              <tr key={key} data-tight={gap.isTight || undefined}>
                <th scope="row">{between}</th>
                <td>{where}</td>
                <td className="number">
                  <FigureText text={gapText(gap, header)} />
                </td>
                <td>{gapVerdict(gap)}</td>
              </tr>
            );
          })}
        </tbody>
      </table>
    </div>
  );
}
