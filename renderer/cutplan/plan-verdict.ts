/** What a cut plan comes to, in plain sentences. */

import {
  assertNever,
  type CutPlan,
  type CutProblem,
  formatLength,
  isProvenLeast,
  isRemnant,
  type LengthStyle,
  type PlanProgress,
  type StockItem,
} from '../../core/index.ts';
import { countOf } from '../ui/words/spoken.ts';

interface Judged {
  readonly problem: Pick<CutProblem, 'pieces'>;
  readonly stock: readonly StockItem[];
  readonly plan: CutPlan;
}

/** How many pieces are covered, and how many are short. */
export function coverWords({ problem, plan }: Pick<Judged, 'problem' | 'plan'>): string {
  const [all, short] = [problem.pieces.length, plan.short.length];
  if (short === 0) return all === 1 ? 'The one planned piece is covered.' : `All ${all} planned pieces are covered.`;
  return `${all - short} of ${countOf(all, 'planned piece')} covered, ${short} short.`;
}

/** Stock opened, its cost where the shelf has costs, and welds saved. */
export function figureSentences({ stock, plan }: Judged): readonly string[] {
  if (plan.opened.length === 0) return [];
  const opened = plan.opened.flatMap(({ rowId }) => stock.find(({ id }) => id === rowId) ?? []);
  const remnants = opened.filter(isRemnant).length;
  const fresh = opened.filter((item) => !isRemnant(item));
  const saved = 0 - plan.goals.welds;
  return [
    `Cut from ${countOf(fresh.length, 'fresh stock item')} and ${countOf(remnants, 'remnant')}.`,
    ...costSentence(fresh),
    saved === 0 ? 'No weld is saved.' : `${countOf(saved, 'weld')} saved: a straight stays on its bend as the leg.`,
  ];
}

/** What carrying the plan out comes to in both books. */
export function whatSawingDoes({ problem, plan }: Judged): string {
  const remnants = plan.opened.flatMap(({ stretches }) => stretches.filter(({ kind }) => kind === 'remnant')).length;
  const takes = `Takes ${countOf(plan.opened.length, 'item')} off the shelf`;
  const keeps = remnants === 0 ? '' : `, puts ${countOf(remnants, 'remnant')} on it`;
  const count = countOf(problem.pieces.length - plan.short.length, 'piece');
  return `${takes}${keeps} and marks ${count} cut, as one step that can be taken back.`;
}

function costSentence(fresh: readonly StockItem[]): readonly string[] {
  const known = fresh.flatMap(({ cost }) => (cost === undefined ? [] : [cost]));
  if (known.length === 0) return [];
  const sum = `Fresh stock opened costs ${money(known.reduce((total, cost) => total + cost, 0))}`;
  const unknown = fresh.length - known.length;
  return [unknown === 0 ? `${sum}.` : `${sum}, without ${countOf(unknown, 'item')} that the shelf has no cost of.`];
}

/** In the shop's own money, which the shelf does not name. */
function money(amount: number): string {
  return amount.toFixed(2);
}

/**
 * One sentence: proven least, or the best found so far, why no further, and what no plan can go below. A plan that was
 * stopped is never proven, whatever bounds it carries: part of it was not looked at.
 */
export function proofSentence(plan: CutPlan, style: LengthStyle): string {
  if (plan.ended !== 'stopped' && isProvenLeast(plan)) {
    return 'Proven least: on this shelf no plan leaves fewer pieces short, then opens cheaper fresh stock, then saves more welds, then loses less tube.';
  }
  return `Best found so far, not proven least, for ${whyEnded(plan.ended)}: ${boundWords(plan, style)}.`;
}

function whyEnded(ended: CutPlan['ended']): string {
  switch (ended) {
    case 'searched':
    case 'gaveUp':
      return 'there was more to look at than the search takes';
    case 'timeUp':
      return 'the time was up';
    case 'stopped':
      return 'it was stopped';
    default:
      return assertNever(ended);
  }
}

/** The first goal that is not proven, with its bound. */
function boundWords({ bounds, ended }: CutPlan, style: LengthStyle): string {
  const open = bounds.find(({ reached, bound }) => reached > bound);
  if (ended === 'stopped' || open === undefined) return 'no bound is known';
  const { reached, bound } = open;
  // That fresh stock costs something is no news.
  if (open.goal === 'cost' && bound <= 0) return 'how far its fresh stock is from the least is not known';
  switch (open.goal) {
    case 'shortage':
      return `${countOf(reached, 'piece')} short, and no plan leaves fewer than ${bound} short`;
    case 'cost':
      return `its fresh stock counts ${money(reached / 100)}, and no plan that covers as much counts below ${money(bound / 100)}`;
    case 'welds':
      return `it saves ${countOf(0 - reached, 'weld')}, and no plan as cheap saves more than ${0 - bound}`;
    case 'lost':
      return `it loses ${formatLength(reached / 100, style)} of tube, and no plan as good otherwise loses less than ${formatLength(bound / 100, style)}`;
    default:
      return assertNever(open.goal);
  }
}

/** How far the search is; null: it has not told yet. */
export function progressWords(progress: PlanProgress | null): string {
  if (progress === null) return 'Planning…';
  const { tubesPlanned, tubes, best } = progress;
  const short = best.short.length === 0 ? 'nothing short' : `${best.short.length} short`;
  return `Planning: ${tubesPlanned} of ${countOf(tubes, 'tube size')} done; so far ${short}.`;
}
