/** The cut list: every opened stock item in the order of work. */

import { useEffect, useRef } from 'react';
import { cutList, type KeptPlan, type LengthStyle } from '../../../core/index.ts';
import type { PlacedPieces } from './plan-pieces.ts';
import { StockWork } from './stock-work.tsx';

/** A cut by its stock item (`row copy`) and its place among that item's cuts. */
export interface ChosenCut {
  readonly item: string;
  readonly step: number;
}

interface Props {
  readonly made: KeptPlan;
  readonly pieces: PlacedPieces;
  readonly style: LengthStyle;
  readonly chosen: ChosenCut | null;
  readonly onChoose: (chosen: ChosenCut) => void;
}

export function CutList({ made, pieces, style, chosen, onChoose }: Props) {
  const { problem, plan, stock } = made;
  const place = useRef<HTMLElement>(null);
  useEffect(() => {
    // The cut of the piece that was in hand on the bench may be far down the list.
    place.current?.querySelector('.cut-steps [data-chosen]')?.scrollIntoView({ block: 'center' });
  }, []);
  const list = cutList(problem, plan);
  if (list.length === 0) return null;
  return (
    <section aria-label="Cut list" className="cut-list" ref={place}>
      <h2>Cut list</h2>
      <p className="prose">
        Mark all lines of an item before its first cut: they are measured on the whole item. The first end is the left
        one in the picture. On a bend, arcs run from where the bend begins at the first leg. Beyond the line is towards
        the other end.
      </p>
      <p className="prose cut-caution">
        Clamp the tube, wear eye and hearing protection, and keep gloves away from the turning blade. Check each figure
        against the tube before it is cut.
      </p>
      {list.map((work, at) => {
        const id = `${work.row.id} ${work.copy}`;
        const item = plan.opened.find(({ rowId, copy }) => rowId === work.row.id && copy === work.copy);
        const stored = stock.find((one) => one.id === work.row.id);
        if (item === undefined || stored === undefined) return null;
        return (
          <StockWork
            key={id}
            {...{ number: at + 1, work, item, stored, pieces, style }}
            saw={problem.saw}
            chosen={chosen?.item === id ? chosen.step : null}
            onChoose={(step) => onChoose({ item: id, step })}
          />
        );
      })}
    </section>
  );
}
