/** Which single entry, put right, would explain what was measured; each can be accepted. */

import { useMemo } from 'react';
import {
  describeMisEntry,
  findMisEntry,
  type Header,
  type MisEntryOutcome,
  mmOf,
  type Primary,
} from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { FigureText } from '../ui/figure-text.tsx';
import { useAfterPaint } from '../view/use-after-paint.ts';
import type { AsBuiltProps } from './as-built-props.ts';
import { shareWords } from './as-built-words.ts';

export function MisEntryPart({ session, header, primary, offers }: AsBuiltProps) {
  // Nothing is searched in the frame that shows an edit; the answer follows it.
  const settled = useAfterPaint(header);
  const outcome = useMemo((): MisEntryOutcome => {
    const own = settled.primaries.find(({ id }) => id === primary.id);
    if (own === undefined) return { kind: 'notMeasured' };
    const clrsMm = clrsOf(settled, own, offers.clrs.map(mmOf));
    return findMisEntry(settled, own, { clrsMm, newId: session.newId() });
  }, [settled, primary.id, offers, session]);
  if (outcome.kind === 'notMeasured') return null;
  return (
    <section className="asbuilt-part" aria-label="Wrong entry">
      <h3 className="asbuilt-heading">Which entry may be wrong</h3>
      <p className="asbuilt-finding" role="status">
        {outcomeWords(outcome)}
      </p>
      {outcome.kind !== 'explained' ? null : (
        <ol className="asbuilt-entries">
          {outcome.entries.map((entry, index) => (
            <li key={describeMisEntry(entry, settled.settings.display)}>
              <p>
                <FigureText text={describeMisEntry(entry, settled.settings.display)} />{' '}
                <span className="asbuilt-share">({shareWords(entry.share, index)})</span>
              </p>
              {header.state === 'open' ? <Button onPress={() => session.apply(entry.edit)}>Put it right</Button> : null}
            </li>
          ))}
        </ol>
      )}
    </section>
  );
}

const EXPLAINED_WORDS = {
  length: 'One of these, put right, would explain it:',
  readings: 'Each reading agrees with the pieces, but not with the others. One of these would explain it:',
  end: 'The lengths agree, but the end misses its inlet. One of these would explain it:',
} as const;

const UNEXPLAINED_WORDS = {
  length: 'No single entry explains this. Look for two, or measure again.',
  readings:
    'Each reading agrees with the pieces, but not with the others, and no single entry explains that. Measure again.',
  end: 'The lengths agree, but the end misses its inlet, and no single entry explains that.',
} as const;

function outcomeWords(outcome: MisEntryOutcome): string {
  switch (outcome.kind) {
    case 'notMeasured':
      return 'Nothing was measured yet.';
    case 'agrees':
      return 'The tube agrees with its pieces; nothing to look for.';
    case 'explained':
      return EXPLAINED_WORDS[outcome.off];
    case 'none':
      return UNEXPLAINED_WORDS[outcome.off];
  }
}

/** CLRs of the shelf, and those that the header uses anyway, each once. */
function clrsOf(header: Header, { pieces }: Primary, shelfMm: readonly number[]): readonly number[] {
  const usedMm = pieces.flatMap((piece) => (piece.kind === 'straight' ? [] : [mmOf(piece.clr)]));
  const known: number[] = [];
  for (const mm of [...shelfMm, mmOf(header.settings.clr), ...usedMm]) {
    if (!known.some((other) => Math.abs(other - mm) < 0.05)) known.push(mm);
  }
  return known;
}
