/** How large panel, board and pieces were dragged: kept for the next start, and told to the page's styles. */

import { useCallback, useEffect, useState } from 'react';
import type { SawSettings } from '../../../core/index.ts';
import type { BoardOrder } from '../../board/board-order.ts';
import type { MovePrices } from '../../moves/move-prices.ts';
import type { KeptStandpoints } from '../../view/camera/kept-standpoints.ts';

export type { BoardOrder };

/** The parts of the bench whose size can be changed: the panel's and the pieces' width, the board's height. */
export type SizedPart = 'panel' | 'pieces' | 'board';

/** CSS pixels; a part that is left out has the size that suits the window. */
export type BenchSizes = Readonly<Partial<Record<SizedPart, number>>>;

export interface KeptSizes {
  readonly sizes: BenchSizes;
  readonly keep: (sizes: BenchSizes) => void;
}

/** How the bench was last set up, and the way to keep it. */
export interface KeptBench extends KeptSizes {
  readonly boardOrder: BoardOrder;
  readonly keepOrder: (order: BoardOrder) => void;
  readonly standpoints: KeptStandpoints;
  /** How the shop saws. */
  readonly saw: SawSettings;
  /** Null: the shop has none yet. */
  readonly movePrices: MovePrices | null;
  readonly keepMovePrices: (prices: MovePrices) => void;
}

/** The custom property in which layout.css finds the size. */
export function sizeProperty(part: SizedPart): string {
  return `--${part}-size`;
}

/** Puts the size on the page without drawing anything anew; null: as suits the window. */
export function showSize(part: SizedPart, px: number | null): void {
  const { style } = document.documentElement;
  if (px === null) style.removeProperty(sizeProperty(part));
  else style.setProperty(sizeProperty(part), `${px}px`);
}

const PARTS: readonly SizedPart[] = ['panel', 'pieces', 'board'];

export interface BenchSizing {
  readonly sizes: BenchSizes;
  /** Ends a drag or a key press: shown and kept. Null takes the size back to what suits the window. */
  readonly settle: (part: SizedPart, px: number | null) => void;
}

export function useBenchSizes({ sizes: atStart, keep }: KeptSizes): BenchSizing {
  const [sizes, setSizes] = useState(atStart);
  useEffect(() => {
    for (const part of PARTS) showSize(part, sizes[part] ?? null);
  }, [sizes]);
  const settle = useCallback(
    (part: SizedPart, px: number | null) => {
      const { [part]: _before, ...others } = sizes;
      const next = px === null ? others : { ...others, [part]: px };
      setSizes(next);
      keep(next);
    },
    [sizes, keep],
  );
  return { sizes, settle };
}
