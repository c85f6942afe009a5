/** What moves are put in order by, and the shop's own prices where they decide. */

import type { LengthUnit } from '../../core/index.ts';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { TypedField } from '../ui/fields/typed-field.tsx';
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

function PriceField({ label, price, onTake }: PriceProps) {
  return (
    <TypedField
      label={label}
      stored={String(price)}
      take={(text) => {
        const read = readPrice(withDecimalPoints(text));
        if (read === null) return `"${text.trim()}" is no price: type a number such as 15 or 7.5.`;
        if (read !== price) onTake(read);
        return null;
      }}
    />
  );
}
