/** Says how far a search for a whole header has come, and why there is no proposal. */

import type { Header } from '../../header/header.ts';
import { primaryTitle } from '../../length/describe-match.ts';
import { assertNever } from '../../result.ts';
import { formatLength } from '../../units/format-length.ts';
import { describeNoProposal } from '../describe-proposals.ts';
import type { HeaderProgress, HeaderProposalOutcome } from './header-outcome.ts';

type NoHeader = Extract<HeaderProposalOutcome, { readonly kind: 'none' }>['reason'];

export function describeNoHeader(reason: NoHeader, header: Header): string {
  switch (reason.kind) {
    case 'headerFinished':
      return 'This header is finished. Duplicate it to change it.';
    case 'noneToDo':
      return 'No primary with a port and an inlet has anything left to build.';
    case 'together':
      return 'Each primary has tubes of its own, but no set of them was found that keeps the minimum clearance. Allow less clearance, another length, or any inlet of the collector.';
    case 'onePrimary': {
      const name = header.primaries.find(({ id }) => id === reason.primaryId)?.name ?? reason.primaryId;
      return `${primaryTitle(name)}: ${describeNoProposal(reason.reason, header.settings.display)}`;
    }
    case 'notThrough':
      return 'Nothing found so far. Search on, or allow another length.';
    default:
      return assertNever(reason);
  }
}

/** `Length 1 of 3, 35 1/4": tubes for 2 of 4 primaries`. */
export function describeProgress(progress: HeaderProgress, { settings }: Header): string {
  const { step, lengthMm, at, lengths, gathered, primaries } = progress;
  if (lengthMm === null) return 'Least lengths';
  const length = formatLength(lengthMm, settings.display);
  const where = lengths > 1 ? `Length ${at} of ${lengths}, ${length}` : length;
  switch (step) {
    case 'gathering':
      return `${where}: tubes for ${gathered} of ${primaries} primaries`;
    case 'fitting':
      return `${where}: fitting ${primaries} primaries together`;
    case 'proving':
      return `${where}: checking a set`;
    default:
      return assertNever(step);
  }
}
