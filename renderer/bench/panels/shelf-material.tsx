/** What the shelf calls this size of tube, where it is not what the header calls it: two names for one thing match nothing. */

import { type Header, otherMaterials, type StockItem, setTubeEdit } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import { Button } from '../../ui/button.tsx';
import { countOf } from '../../ui/words/spoken.ts';

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
  /** Null: the shelf was not read. */
  readonly stock: readonly StockItem[] | null;
}

export function ShelfMaterial({ session, header, stock }: Props) {
  const { tube } = header.settings;
  const others = otherMaterials(stock ?? [], tube);
  if (others.length === 0) return null;
  return (
    <section className="shelf-material" aria-label="Materials on the shelf">
      <p>On the shelf this size is listed under another name, and does not count for {tube.material}:</p>
      {others.map(({ material, rows }) => (
        <Button key={material} onPress={() => session.apply(setTubeEdit(header, { material }))}>
          Use {material} ({countOf(rows, 'row')})
        </Button>
      ))}
    </section>
  );
}
