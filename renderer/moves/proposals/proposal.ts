/** Something that can be applied as one step, in words and figures: a move on one primary, or a plan for all of them. */

import type { Edit, Move, Verdict } from '../../../core/index.ts';
import type { TubePicture } from '../whole/tube-picture.tsx';

/** The columns after the words, in order; the price is shown only where the shop has its own. */
export const COLUMNS = ['result', 'price', 'bends', 'joints', 'cuts', 'tube', 'end', 'clearance', 'shelf'] as const;
export type Column = (typeof COLUMNS)[number];

export interface ProposalCell {
  readonly text: string;
  /** Given its mark. */
  readonly verdict?: Verdict;
}

export interface Proposal {
  readonly key: string;
  /** What to do, as one would say it. */
  readonly said: string;
  /** The same in parts where there are several primaries; and what the shelf lacks. */
  readonly lines: readonly string[];
  readonly cells: Readonly<Record<Column, ProposalCell>>;
  /** Null: nothing of it can be done. */
  readonly edit: Edit | null;
  readonly moves: readonly Move[];
  /** Of a whole primary that is proposed. */
  readonly picture?: TubePicture | null;
}
