/** A proposed header as what can be chosen and applied, and its primaries one by one. */

import {
  formatGap,
  formatLength,
  type Header,
  type HeaderProposal,
  type ProposedPrimary,
} from '../../../core/index.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import { lackingLine, missText, planCells, shelfCell } from '../proposals/move-cells.ts';
import type { Proposal } from '../proposals/proposal.ts';

export function headerProposal(proposed: HeaderProposal, header: Header): Proposal {
  const { proposals, bends, lengthMm, spreadMm } = proposed;
  const style = header.settings.display;
  const sum = (figure: (one: ProposedPrimary) => number) => proposals.reduce((total, one) => total + figure(one), 0);
  const needs = proposals.flatMap(({ stockNeeded }) => stockNeeded);
  const costs = {
    price: null,
    bendsAdded: bends,
    jointsMade: sum(({ joints }) => joints),
    newCuts: sum(({ cuts }) => cuts),
    tubeAddedMm: sum(({ tubeMm }) => tubeMm),
  };
  const gapsMm = proposals.flatMap(({ nearest }) => nearest?.gapMm ?? []);
  const lacking = lackingLine(needs, style);
  return {
    key: 'whole header',
    said: `${countWords(proposals.length)} at ${formatLength(lengthMm, style)}, spread ${formatLength(spreadMm, style)}`,
    lines: [...targetLines(proposed, header), ...(lacking === null ? [] : [lacking])],
    cells: {
      ...planCells(costs, 0, { style, rankBy: 'order' }),
      clearance: { text: gapsMm.length === 0 ? '\u2013' : formatGap(Math.min(...gapsMm), style) },
      shelf: shelfCell(needs),
    },
    edit: proposed.edit,
    moves: [],
  };
}

function countWords(count: number): string {
  return count === 1 ? '1 primary' : `${count} primaries`;
}

/** The target is part of the step where it would be another one without. */
function targetLines({ edit, lengthMm }: HeaderProposal, { settings }: Header): readonly string[] {
  const edits = edit.kind === 'batch' ? edit.edits : [edit];
  const setsTarget = edits.some((one) => one.kind === 'setSettings' && one.set.target !== undefined);
  return setsTarget ? [`Sets the target to ${formatLength(lengthMm, settings.display)}`] : [];
}

export interface HeaderRow {
  readonly primaryId: string;
  readonly title: string;
  readonly inlet: string;
  readonly length: string;
  readonly bends: number;
  readonly cuts: number;
  readonly end: string;
  readonly clearance: string;
}

export function headerRows({ proposals, inletIds }: HeaderProposal, header: Header): readonly HeaderRow[] {
  const style = header.settings.display;
  const inlets = header.collectors.flatMap((collector) => collector.inlets);
  return proposals.map((one): HeaderRow => {
    const primary = header.primaries.find(({ id }) => id === one.primaryId);
    const inletId = inletIds.get(one.primaryId) ?? primary?.inletId;
    const name = inlets.find(({ id }) => id === inletId)?.name ?? '\u2013';
    return {
      primaryId: one.primaryId,
      title: primaryTitle(primary?.name ?? one.primaryId),
      inlet: inletId === primary?.inletId ? name : `${name}, new`,
      length: formatLength(one.lengthMm, style),
      bends: one.bends,
      cuts: one.cuts,
      end: missText(one.closure, style),
      clearance: one.nearest === null ? '\u2013' : formatGap(one.nearest.gapMm, style),
    };
  });
}
