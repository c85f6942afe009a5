/** What is asked of the moves worker and what it answers; both cross between threads, so they are plain values. */

import type {
  Header,
  HeaderMovesOutcome,
  HeaderProgress,
  HeaderProposalOutcome,
  HeaderProposeOptions,
  MoveOptions,
  MoveOutcome,
  ProposalOutcome,
  ProposeOptions,
  ReachOutcome,
} from '../../../core/index.ts';

/** Options without functions, which cannot be sent to another thread. */
export type AskedOptions = Pick<MoveOptions, 'kinds' | 'maxJoints' | 'clearanceKeptMm' | 'stock' | 'prices'>;

export type AskedProposeOptions = Pick<ProposeOptions, 'clearanceKeptMm' | 'stock' | 'mostBends'>;

export type AskedHeaderOptions = AskedProposeOptions & Pick<HeaderProposeOptions, 'inlets' | 'target'>;

interface Asked<Options = AskedOptions> {
  readonly header: Header;
  readonly options: Options;
  /** How long the search for one primary may take before it answers with the best so far. */
  readonly budgetMs: number;
}

export type MovesQuestion =
  | ({ readonly kind: 'primary'; readonly primaryId: string } & Asked)
  | ({ readonly kind: 'header' } & Asked)
  /** What the primary should be, from its port or from what is tacked of it. */
  | ({ readonly kind: 'whole'; readonly primaryId: string } & Asked<AskedProposeOptions>)
  /** Which lengths its port and its inlet can have. */
  | ({ readonly kind: 'reach'; readonly primaryId: string } & Asked<AskedProposeOptions>)
  /** All primaries that are empty or half built, at one length. */
  | ({ readonly kind: 'wholeHeader' } & Asked<AskedHeaderOptions>);

export type MovesAnswer =
  | { readonly kind: 'primary'; readonly outcome: MoveOutcome }
  | { readonly kind: 'header'; readonly outcome: HeaderMovesOutcome }
  | { readonly kind: 'whole'; readonly outcome: ProposalOutcome }
  | { readonly kind: 'reach'; readonly outcome: ReachOutcome }
  | { readonly kind: 'wholeHeader'; readonly outcome: HeaderProposalOutcome; readonly progress: HeaderProgress };

/** `number` rises with every question; an answer carries the number of its question. */
export type AskedMessage =
  | { readonly kind: 'ask'; readonly number: number; readonly question: MovesQuestion; readonly budgetMs: number }
  /** Not everything was looked through in the time given: look on for so much longer. */
  | { readonly kind: 'lookOn'; readonly number: number; readonly budgetMs: number }
  /** Answer with what was found until now. */
  | { readonly kind: 'stop'; readonly number: number }
  /** Nothing is wanted any more. */
  | { readonly kind: 'drop' };

export interface AnswerMessage {
  readonly number: number;
  readonly answer: MovesAnswer;
  /** It is the best so far: the search goes on, and answers again. */
  readonly isLooking: boolean;
  /** False: the search can look on. */
  readonly isThrough: boolean;
}
