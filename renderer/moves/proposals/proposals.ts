/** From what the search found to what can be chosen and applied. */

import {
  describeMove,
  describeNoMoves,
  finenessMm,
  finerStyle,
  formatLength,
  type Header,
  type HeaderMovesOutcome,
  type HeaderPlan,
  isMean,
  type MatchReport,
  type Move,
  type MoveOutcome,
  type PrimaryPlan,
  type Standing,
} from '../../../core/index.ts';
import { countOf } from '../../ui/words/spoken.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import { priceText, type RankBy } from '../move-prices.ts';
import { lackingLine, moveCells, planCells } from './move-cells.ts';
import type { Proposal } from './proposal.ts';

export function moveProposals(
  { moves, before }: { readonly moves: readonly Move[]; readonly before: Standing },
  header: Header,
  rankBy: RankBy = 'order',
): readonly Proposal[] {
  return orderingLast(moves).map((move, index) => {
    const lacking = lackingLine(move.cost.stockNeeded, header.settings.display);
    return {
      key: `${move.primaryId} ${index}`,
      said: describeMove(move, header),
      lines: lacking === null ? [] : [lacking],
      cells: moveCells(move, { header, before, rankBy }),
      edit: move.edit,
      moves: [move],
    };
  });
}

/** In their order, but for those that the shelf lacks something for: waiting for tube takes longer than any work. */
function orderingLast(moves: readonly Move[]): readonly Move[] {
  const lacks = ({ cost }: Move) => cost.stockLacking > 0;
  return [...moves.filter((move) => !lacks(move)), ...moves.filter(lacks)];
}

type FoundPlans = Extract<HeaderMovesOutcome, { readonly kind: 'found' }>;

/** The present target first, then the others, best first; at most so many in all. Targets that read the same are one. */
const MOST_PLANS = 3;

export function planProposals(
  found: FoundPlans,
  header: Header,
  report: MatchReport,
  rankBy: RankBy = 'order',
): readonly Proposal[] {
  const shown = new Set<string>();
  const isNew = ({ targetMm }: HeaderPlan) => {
    // Two that read alike on the board are one idea; the better comes first.
    const text = formatLength(targetMm, header.settings.display);
    return !shown.has(text) && shown.add(text) !== undefined;
  };
  const others = found.plans.filter((plan) => plan !== found.asItIs && plan.edit !== null);
  return [found.asItIs, ...others]
    .filter(isNew)
    .slice(0, MOST_PLANS)
    .map((plan) => planProposal(plan, { header, report, rankBy }));
}

interface PlanContext {
  readonly header: Header;
  readonly report: MatchReport;
  readonly rankBy: RankBy;
}

function planProposal(plan: HeaderPlan, { header, report, rankBy }: PlanContext): Proposal {
  const moves = plan.primaries.flatMap(({ outcome }) => movesOf(outcome).slice(0, 1));
  return {
    key: plan.target === null ? 'as it is' : JSON.stringify(plan.target),
    said: targetSentence(plan, header, report),
    lines: [...solvedLines(plan.primaries, header), ...unsolvedLines(plan.primaries, header)],
    cells: planCells(plan, plan.unsolved.length, { style: header.settings.display, rankBy }),
    edit: plan.edit,
    moves,
  };
}

export function movesOf(outcome: MoveOutcome): readonly Move[] {
  return outcome.kind === 'none' ? [] : outcome.moves;
}

function targetSentence(plan: HeaderPlan, header: Header, report: MatchReport): string {
  const { target, targetMm, primaries } = plan;
  const length = targetText(plan, header);
  const count = countOf(primaries.length, 'primary', 'primaries');
  const moved = primaries.length === 0 ? 'no primary to change' : `change ${count}`;
  if (target === null) return `Keep the target of ${length}; ${moved}`;
  const source = header.primaries.find(({ id }) => target.kind === 'primary' && id === target.primaryId);
  const mean = isMean(targetMm, report) ? ', the mean' : '';
  const whose = source === undefined ? mean : `, the length of ${primaryTitle(source.name)}`;
  return `Move the target to ${length}${whose}; ${moved}`;
}

function titleOf(primaryId: string, header: Header): string {
  return primaryTitle(header.primaries.find(({ id }) => id === primaryId)?.name ?? primaryId);
}

function solvedLines(plans: readonly PrimaryPlan[], header: Header): readonly string[] {
  return plans.flatMap(({ primaryId, outcome }) => {
    const [move] = movesOf(outcome);
    return move === undefined ? [] : [`${titleOf(primaryId, header)}: ${describeMove(move, header)}`];
  });
}

/** "Primary 1, Primary 4: no move. Every piece is locked or welded."; one line a reason. */
function unsolvedLines(plans: readonly PrimaryPlan[], header: Header): readonly string[] {
  const titles = new Map<string, string[]>();
  for (const { primaryId, outcome } of plans) {
    if (outcome.kind !== 'none') continue;
    const why = describeNoMoves(outcome.reason, header.settings.display);
    titles.set(why, [...(titles.get(why) ?? []), titleOf(primaryId, header)]);
  }
  return [...titles].map(([why, names]) => `${names.join(', ')}: no move. ${why}`);
}

/** A typed target that is nearer than this to what is shown is what is shown. */
const SHOWN_MM = 0.005;

/** As the header shows lengths; finer where the target would be another one if what is shown were typed in. */
function targetText({ target, targetMm }: Pick<HeaderPlan, 'target' | 'targetMm'>, { settings }: Header): string {
  const { display } = settings;
  const stepMm = finenessMm(display);
  const offMm = Math.abs(targetMm - Math.round(targetMm / stepMm) * stepMm);
  return formatLength(targetMm, target?.kind === 'typed' && offMm > SHOWN_MM ? finerStyle(display) : display);
}

/** `Moving the target to 35 1/16" takes 1 joint; keeping it takes 4.` Null: keeping it is as cheap. */
export function cheaperSentence(
  { asItIs, cheaper }: FoundPlans,
  header: Header,
  rankBy: RankBy = 'order',
): string | null {
  if (cheaper === null) return null;
  const to = `Moving the target to ${targetText(cheaper, header)}`;
  if (cheaper.unsolved.length < asItIs.unsolved.length) {
    const left =
      cheaper.unsolved.length === 0 ? 'no primary' : countOf(cheaper.unsolved.length, 'primary', 'primaries');
    return `${to} leaves ${left} without a move; keeping it leaves ${asItIs.unsolved.length}.`;
  }
  const fixing = `keeping it and changing ${countOf(asItIs.primaries.length, 'primary', 'primaries')}`;
  if (cheaper.price !== null && asItIs.price !== null) {
    return `${to} takes ${priceText(cheaper.price, rankBy)}; ${fixing} takes ${priceText(asItIs.price, rankBy)}.`;
  }
  return `${to} takes ${countOf(cheaper.jointsMade, 'joint')}; ${fixing} takes ${asItIs.jointsMade}.`;
}

/** Why there is nothing to do for the header as a whole. */
export function noPlansWords(reason: Extract<HeaderMovesOutcome, { readonly kind: 'none' }>['reason']): string {
  switch (reason) {
    case 'noTarget':
      return 'No target yet. Enter a longer primary, or type a target.';
    case 'headerFinished':
      return 'This header is finished. Duplicate it to change it.';
    case 'nothingToDo':
      return 'Every primary is OK.';
    case 'notThrough':
      return 'Nothing found so far.';
  }
}
