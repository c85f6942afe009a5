/** Proposed primaries as what can be chosen and applied: in words, figures and a small picture. */

import {
  applyEdit,
  formatGap,
  formatLength,
  formatQuickEntry,
  type Header,
  isShownAsZero,
  type LengthStyle,
  type ProposedPrimary,
  unitOf,
  verdictOfDeviation,
} from '../../../core/index.ts';
import { countOf } from '../../ui/words/spoken.ts';
import { signedLength, verdictMark } from '../../ui/words/verdict-words.ts';
import { costCells, lackingLine, missText, shelfCell } from '../proposals/move-cells.ts';
import type { Proposal, ProposalCell } from '../proposals/proposal.ts';
import { tubePicture } from './tube-picture.tsx';

const NOTHING: ProposalCell = { text: '–' };

export function wholeProposals(proposed: readonly ProposedPrimary[], header: Header): readonly Proposal[] {
  const leastMm = Math.min(...proposed.map(({ lengthMm }) => lengthMm));
  return proposed.map((one): Proposal => {
    const lacking = lackingLine(one.stockNeeded, header.settings.display);
    const applied = applyEdit(header, one.edit);
    const style = header.settings.display;
    return {
      // The same while others come in before it.
      key: `whole ${one.primaryId} ${entryWords(one, header)}`,
      said: `${countOf(one.bends, 'bend')}, ${formatLength(one.lengthMm, style)}`,
      lines: [entryWords(one, header), ...(lacking === null ? [] : [lacking])],
      cells: {
        result:
          one.deviationMm === null ? overCell(one.lengthMm - leastMm, style) : resultCell(one.deviationMm, header),
        price: NOTHING,
        ...costCells(
          { bendsAdded: one.bends, jointsMade: one.joints, newCuts: one.cuts, tubeAddedMm: one.tubeMm },
          style,
        ),
        end: { text: missText(one.closure, style) },
        clearance: one.nearest === null ? NOTHING : { text: formatGap(one.nearest.gapMm, style) },
        shelf: shelfCell(one.stockNeeded),
      },
      edit: one.edit,
      moves: [],
      picture: applied.ok ? tubePicture(applied.value.header, one.primaryId) : null,
    };
  });
}

/** `typed in inches: 3 1/16; b88 30.5; 1 1/16`: the pieces as the entry line takes them. */
function entryWords({ pieces }: ProposedPrimary, header: Header): string {
  const context = { unit: unitOf(header.settings.display), clr: header.settings.clr };
  const typed = pieces.map((piece) => formatQuickEntry(piece, context)).join('; ');
  return `typed in ${context.unit === 'in' ? 'inches' : 'mm'}: ${typed}`;
}

/** Where there is no target: how much longer than the shortest in the list. */
function overCell(overMm: number, style: LengthStyle): ProposalCell {
  return { text: isShownAsZero(overMm, style) ? 'shortest' : `${formatLength(overMm, style)} longer` };
}

function resultCell(deviationMm: number, { settings }: Header): ProposalCell {
  const verdict = verdictOfDeviation(deviationMm, settings.tolerance);
  const deviation = isShownAsZero(deviationMm, settings.display)
    ? ''
    : `${signedLength(deviationMm, settings.display)} `;
  return { text: `${deviation}${verdictMark(verdict).word}`, verdict };
}
