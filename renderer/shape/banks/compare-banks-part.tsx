/** Two banks compared, first primary with first and so on: which differ, in what, and what explains it best. */

import { useState } from 'react';
import { type BankPair, compareBanks, type Header, type LengthStyle, type Primary } from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import type { ShapeProps } from '../shape-props.ts';
import { againstWords, differenceWords, turnWords } from './compare-words.ts';
import { PrimaryChoices } from './primary-choices.tsx';

/** The bank that is right, and the one to compare with it: ids of primaries. */
type Banks = readonly [ReadonlySet<string>, ReadonlySet<string>];

/** The first half of the primaries and the rest: the order in which two banks are usually entered. */
function halves(primaries: readonly Primary[]): Banks {
  const middle = Math.ceil(primaries.length / 2);
  const ids = primaries.map(({ id }) => id);
  return [new Set(ids.slice(0, middle)), new Set(ids.slice(middle))];
}

export function CompareBanksPart({ header }: ShapeProps) {
  const { primaries, settings } = header;
  const [chosen, setBanks] = useState<Banks | null>(null);
  const [reference, other] = chosen ?? halves(primaries);
  if (primaries.length < 2) return null;
  const bank = (ids: ReadonlySet<string>) => primaries.filter(({ id }) => ids.has(id));
  return (
    <section className="shape-part" aria-label="Compare banks">
      <h2 className="shape-heading">Compare two banks</h2>
      <PrimaryChoices
        legend="This bank is right"
        primaries={primaries}
        chosen={reference}
        onChange={(ids) => setBanks([ids, other])}
      />
      <PrimaryChoices
        legend="and this one should be like it, in the same order"
        primaries={primaries}
        chosen={other}
        onChange={(ids) => setBanks([reference, ids])}
      />
      <ul className="shape-list">
        {compareBanks(bank(reference), bank(other)).map((pair) => (
          <li key={`${pair.referenceId} ${pair.otherId}`}>
            <FigureText text={pairWords(pair, header, settings.display)} />
          </li>
        ))}
      </ul>
    </section>
  );
}

/** A pair in a sentence or two: "Primary 3 against Primary 1: piece 4: clocking +5° (explains it best)." */
export function pairWords(pair: BankPair, { primaries }: Pick<Header, 'primaries'>, style: LengthStyle): string {
  const name = (id: string | null) => primaries.find((primary) => primary.id === id)?.name ?? '';
  const title = (id: string | null) => primaryTitle(name(id));
  if (pair.comparison === null) return `${title(pair.otherId ?? pair.referenceId)} has no partner in the other bank.`;
  const lead = `${title(pair.otherId)} against ${title(pair.referenceId)}`;
  if (!pair.comparison.ok) return `${lead}: ${wordsFor(pair.comparison.problems)}`;
  const { differences, bestMending, bestJoint, closure } = pair.comparison.value;
  if (differences.length === 0) return `${lead}: nothing differs.`;
  const listed = differences.map(
    (difference) =>
      differenceWords(difference, style).replace(/^P/, 'p') + (difference === bestMending ? ' (explains it best)' : ''),
  );
  const turn = bestJoint === null || closure === null ? '' : ` ${turnWords(bestJoint, closure, style)}`;
  return `${lead}: ${listed.join('; ')}.${againstWords(turn, name(pair.referenceId))}`;
}
