/** The figures of a move in words for the table: what comes out, and what it costs. Every length carries its unit. */

import {
  type Closure,
  formatAngle,
  formatGap,
  formatLength,
  type Header,
  isShownAsZero,
  type LengthStyle,
  type Move,
  mmOf,
  roundedTo,
  type Standing,
  type StockNeed,
  verdictOfDeviation,
} from '../../../core/index.ts';
import { signedLength, verdictMark } from '../../ui/words/verdict-words.ts';
import { priceText, type RankBy } from '../move-prices.ts';
import type { Column, ProposalCell } from './proposal.ts';

/** Where there is nothing to say. */
const NOTHING: ProposalCell = { text: '–' };

interface Context {
  readonly header: Header;
  readonly before: Standing;
  readonly rankBy: RankBy;
}

export function moveCells(move: Move, { header, before, rankBy }: Context): Readonly<Record<Column, ProposalCell>> {
  const style = header.settings.display;
  // The band stands about the target that the deviation is from.
  const verdict = verdictOfDeviation(move.deviationMm, header.settings.tolerance);
  const deviation = isShownAsZero(move.deviationMm, style) ? '' : `${signedLength(move.deviationMm, style)} `;
  return {
    result: { text: `${deviation}${verdictMark(verdict).word}`, verdict },
    price: priceCell(move.cost.price, rankBy),
    ...costCells(move.cost, style),
    end: endCell(move, before, style),
    clearance: clearanceCell(move, style),
    shelf: shelfCell(move.cost.stockNeeded),
  };
}

function priceCell(price: number | null, rankBy: RankBy): ProposalCell {
  return price === null ? NOTHING : { text: priceText(price, rankBy) };
}

type Costs = Pick<Move['cost'], 'bendsAdded' | 'jointsMade' | 'newCuts' | 'tubeAddedMm'>;

export function costCells(costs: Costs, style: LengthStyle): Pick<Record<Column, ProposalCell>, CostColumn> {
  const isAdded = costs.tubeAddedMm > 0 && !isShownAsZero(costs.tubeAddedMm, style);
  return {
    bends: { text: String(costs.bendsAdded) },
    joints: { text: String(costs.jointsMade) },
    cuts: { text: String(costs.newCuts) },
    tube: isAdded ? { text: formatLength(costs.tubeAddedMm, style) } : { text: '0' },
  };
}

type CostColumn = 'bends' | 'joints' | 'cuts' | 'tube';

/** Of a plan for several primaries, whose ends and clearances do not go into one figure. */
export function planCells(
  costs: Costs & Pick<Move['cost'], 'price'>,
  unsolved: number,
  { style, rankBy }: { readonly style: LengthStyle; readonly rankBy: RankBy },
): Readonly<Record<Column, ProposalCell>> {
  const result: ProposalCell =
    unsolved === 0
      ? { text: `all ${verdictMark('inBand').word}`, verdict: 'inBand' }
      : { text: `${unsolved} without a move` };
  const price = priceCell(costs.price, rankBy);
  return { result, price, ...costCells(costs, style), end: NOTHING, clearance: NOTHING, shelf: NOTHING };
}

function endCell({ closureAfter, endShiftAtMostMm }: Move, before: Standing, style: LengthStyle): ProposalCell {
  if (closureAfter === null) {
    if (endShiftAtMostMm === null) return NOTHING;
    return { text: `shifts ${formatLength(endShiftAtMostMm, style)} at most` };
  }
  if (before.endReference === 'inlet') return { text: missText(closureAfter, style) };
  const tilt = tiltText(closureAfter);
  const shift = isShownAsZero(closureAfter.gapMm, style) ? [] : [`shifts ${formatLength(closureAfter.gapMm, style)}`];
  const parts = [...shift, ...(tilt === null ? [] : [`turns ${tilt}`])];
  return { text: parts.length === 0 ? 'stays' : parts.join(', ') };
}

/** "closed", or `3/16" deep, 1/8" aside, 0.4°`. */
export function missText(closure: Closure, style: LengthStyle): string {
  const { alongMm, asideMm } = closure;
  const along = `${formatLength(Math.abs(alongMm), style)} ${alongMm > 0 ? 'short' : 'deep'}`;
  const parts = [
    ...(isShownAsZero(alongMm, style) ? [] : [along]),
    ...(isShownAsZero(asideMm, style) ? [] : [`${formatLength(asideMm, style)} aside`]),
  ];
  const tilt = tiltText(closure);
  if (tilt !== null) parts.push(tilt);
  return parts.length === 0 ? 'closed' : parts.join(', ');
}

/** Null: none that is worth a figure. */
function tiltText({ tiltDeg }: Closure): string | null {
  const tilt = roundedTo(tiltDeg, 1);
  return tilt === 0 ? null : formatAngle(tilt);
}

/** `1/4" → 3/16"`, as it was and as it would be; one figure where it stays. */
function clearanceCell({ clearanceBeforeMm, clearanceAfterMm }: Move, style: LengthStyle): ProposalCell {
  if (clearanceAfterMm === null) return NOTHING;
  const after = formatGap(clearanceAfterMm, style);
  const now = clearanceBeforeMm === null ? after : formatGap(clearanceBeforeMm, style);
  return { text: now === after ? after : `${now} → ${after}` };
}

export function shelfCell(needs: readonly StockNeed[]): ProposalCell {
  if (needs.length === 0) return NOTHING;
  const lacking = needs.filter((need) => !isOnShelf(need)).length;
  return { text: lacking === 0 ? 'has all' : `✕ lacks ${lacking}` };
}

/** `Not on the shelf: 2 bends 45° at CLR 3", 8" of straight`; null when the shelf has all, or was not asked. */
export function lackingLine(needs: readonly StockNeed[], style: LengthStyle): string | null {
  const lacking = needs.filter((need) => !isOnShelf(need));
  const bends = lacking.flatMap((need) => (need.kind === 'straight' ? [] : [bendText(need, style)]));
  const straightsMm = lacking.flatMap((need) => (need.kind === 'straight' ? [need.lengthMm] : []));
  const words = [...counted(bends), ...straightTexts(straightsMm, style)];
  return words.length === 0 ? null : `Not on the shelf: ${words.join(', ')}`;
}

function isOnShelf(need: StockNeed): boolean {
  return need.kind === 'straight' ? need.isOnShelf : need.onShelf === 'onShelf';
}

function bendText({ angleDeg, clr }: Extract<StockNeed, { kind: 'bend' }>, style: LengthStyle): string {
  return `${formatAngle(angleDeg)} at CLR ${formatLength(mmOf(clr), style)}`;
}

/** Alike ones once, in the order in which they come. */
function counted(bends: readonly string[]): readonly string[] {
  return [...new Set(bends)].map((bend) => {
    const count = bends.filter((other) => other === bend).length;
    return count === 1 ? `bend ${bend}` : `${count} bends ${bend}`;
  });
}

const FEW_STRAIGHTS = 2;

/** Each by itself, or their sum where they would make a list. */
function straightTexts(lengthsMm: readonly number[], style: LengthStyle): readonly string[] {
  if (lengthsMm.length <= FEW_STRAIGHTS) return lengthsMm.map((mm) => `${formatLength(mm, style)} of straight`);
  const sumMm = lengthsMm.reduce((sum, mm) => sum + mm, 0);
  return [`${lengthsMm.length} straights, ${formatLength(sumMm, style)} in all`];
}
