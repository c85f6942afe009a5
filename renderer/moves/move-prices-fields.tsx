/** What moves are put in order by, and the shop's own prices where they decide. */

import { useState } from 'react';
import type { LengthUnit } from '../../core/index.ts';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { TextField } from '../ui/fields/text-field.tsx';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';
import { type MovePrices, RANKINGS, readPrice, tubePriceFor } from './move-prices.ts';

interface Props {
  /** Of the header in hand: tube is priced by the foot or by the metre. */
  readonly unit: LengthUnit;
  readonly prices: MovePrices;
  readonly onSet: (prices: MovePrices) => void;
}

export function MovePricesFields({ unit, prices, onSet }: Props) {
  const { rankBy } = prices;
  const tubePer = unit === 'in' ? 'ft' : 'm';
  const set = (change: Partial<MovePrices>) => onSet({ ...prices, ...change });
  const countedIn = rankBy === 'minutes' ? 'min' : 'money';
  const fields = [
    { name: 'A joint', price: prices.joint, take: (joint: number) => set({ joint }) },
    { name: 'A saw cut', price: prices.cut, take: (cut: number) => set({ cut }) },
    { name: 'A bend added', price: prices.bend, take: (bend: number) => set({ bend }) },
    {
      name: tubePer === 'ft' ? 'A foot of tube' : 'A metre of tube',
      price: tubePriceFor(prices, tubePer),
      take: (tube: number) => set({ tube, tubePer }),
    },
    { name: 'A piece to order', price: prices.ordered, take: (ordered: number) => set({ ordered }) },
  ];
  return (
    <>
      <ChoiceField
        label="Rank moves by"
        choices={RANKINGS}
        chosen={rankBy}
        onChoose={(chosen) => set({ rankBy: chosen })}
      />
      {rankBy === 'order'
        ? null
        : fields.map(({ name, price, take }) => (
            <PriceField key={name} label={`${name} (${countedIn})`} price={price} onTake={take} />
          ))}
    </>
  );
}

interface PriceProps {
  readonly label: string;
  readonly price: number;
  readonly onTake: (price: number) => void;
}

/** Taken on Enter or on leaving the field; what is no price stays with the reason. */
function PriceField({ label, price, onTake }: PriceProps) {
  /** Null while the field shows what is kept. */
  const [typed, setTyped] = useState<string | null>(null);
  const [problem, setProblem] = useState<string | null>(null);
  const commit = () => {
    if (typed === null) return;
    const read = readPrice(withDecimalPoints(typed));
    setProblem(read === null ? `"${typed.trim()}" is no price: type a number such as 15 or 7.5.` : null);
    if (read === null) return;
    setTyped(null);
    if (read !== price) onTake(read);
  };
  return (
    <TextField
      label={label}
      value={typed ?? String(price)}
      onChange={setTyped}
      problem={problem}
      onBlur={commit}
      onKeyDown={(event) => {
        if (event.key === 'Enter') commit();
        if (event.key !== 'Escape' || typed === null) return;
        setTyped(null);
        setProblem(null);
      }}
    />
  );
}
