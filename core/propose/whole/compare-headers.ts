/** Which of two proposals for a whole header goes first. */

import type { ProposedPrimary } from '../outcome.ts';
import type { HeaderProposal } from './header-outcome.ts';

/** A gap of more than this is as good as any. */
const ROOMY_MM = 25;

/**
 * Negative when `a` goes first: fewest bends, then joints, then bends at angles that are there or commonly bought, then what the shelf lacks, then tube (whole
 * millimetres), then the least clearance of all (tenths of a millimetre, up to 25 mm).
 */
export function compareHeaders(a: HeaderProposal, b: HeaderProposal): number {
  const more = (figure: (one: ProposedPrimary) => number) => sumOf(a, figure) - sumOf(b, figure);
  return (
    a.bends - b.bends ||
    more(({ joints }) => joints) ||
    more(({ bends, readyBends }) => bends - readyBends) ||
    more(({ stockLacking }) => stockLacking) ||
    Math.round(sumOf(a, tubeOf)) - Math.round(sumOf(b, tubeOf)) ||
    roomOf(b) - roomOf(a)
  );
}

function sumOf({ proposals }: HeaderProposal, figure: (one: ProposedPrimary) => number): number {
  return proposals.reduce((sum, one) => sum + figure(one), 0);
}

function tubeOf({ tubeMm }: ProposedPrimary): number {
  return tubeMm;
}

function roomOf({ proposals }: HeaderProposal): number {
  return Math.round(10 * Math.min(ROOMY_MM, ...proposals.flatMap(({ nearest }) => nearest?.gapMm ?? [])));
}
