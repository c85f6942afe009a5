/** A whole header that is proposed, as the panel lists it; and what is said while it is looked for, or where there is none. */

import { describe, expect, test } from 'vitest';
import {
  demoHeader,
  describeNoHeader,
  describeProgress,
  formatLength,
  type Header,
  type HeaderProposal,
  matchHeader,
} from '../../../core/index.ts';
import { previewOf } from '../../../renderer/moves/proposals/moves-preview.ts';
import { answerQuestion } from '../../../renderer/moves/search/answer-question.ts';
import { headerProposal, headerRows } from '../../../renderer/moves/whole/header-proposals.ts';

const demo = demoHeader('h');

/** The demo with its first two primaries empty. */
const header: Header = {
  ...demo,
  primaries: demo.primaries.map((primary, index) => (index < 2 ? { ...primary, pieces: [] } : primary)),
};

function proposed(): HeaderProposal {
  const answer = answerQuestion({ kind: 'wholeHeader', header, options: { clearanceKeptMm: 1 }, budgetMs: 300 });
  if (answer.kind !== 'wholeHeader' || answer.outcome.kind !== 'found') throw new Error('nothing was proposed');
  return answer.outcome.proposal;
}

const found = proposed();

test('a row for each primary adds up to the proposal, and only inlets that change are called new', () => {
  const rows = headerRows(found, header);
  const { cells, said } = headerProposal(found, header);
  expect(rows.map(({ title }) => title)).toEqual(['Primary 1', 'Primary 2']);
  expect(cells.bends.text).toBe(String(rows.reduce((sum, { bends }) => sum + bends, 0)));
  expect(cells.cuts.text).toBe(String(rows.reduce((sum, { cuts }) => sum + cuts, 0)));
  expect(said).toContain(`2 primaries at ${formatLength(found.lengthMm, header.settings.display)}`);
  for (const { primaryId, inlet } of rows) {
    const own = header.primaries.find(({ id }) => id === primaryId);
    expect(inlet.endsWith(', new')).toBe(found.inletIds.get(primaryId) !== own?.inletId);
  }
});

test('looked at, all of it is in the band beside the one in hand', () => {
  const preview = previewOf(headerProposal(found, header), header);
  const sides = matchHeader(preview?.after ?? header).primaries.slice(0, 2);
  expect(sides.map(({ side }) => side)).toEqual(['inBand', 'inBand']);
  expect(preview?.before).toBe(header);
});

describe('in words', () => {
  const progress = {
    step: 'gathering',
    lengthMm: 35.25 * 25.4,
    at: 1,
    lengths: 3,
    gathered: 2,
    primaries: 4,
  } as const;
  const plain = (text: string) => text.replaceAll('\u2009', ' ');

  test('it is said how far a search has come', () => {
    const said = (change: Partial<Parameters<typeof describeProgress>[0]>) =>
      plain(describeProgress({ ...progress, ...change }, header));
    expect(said({})).toBe('Length 1 of 3, 35 1/4": tubes for 2 of 4 primaries');
    expect(said({ lengths: 1, step: 'fitting' })).toBe('35 1/4": fitting 4 primaries together');
    expect(said({ lengths: 1, step: 'proving' })).toBe('35 1/4": checking a set');
    expect(said({ lengthMm: null })).toBe('Least lengths');
  });

  test('a primary that is in the way is named', () => {
    const reason = { kind: 'onePrimary', primaryId: 'primary-2', reason: { kind: 'samePlace' } } as const;
    expect(describeNoHeader(reason, header)).toMatch(/^Primary 2: Port and inlet are in the same place/);
    expect(describeNoHeader({ kind: 'together' }, header)).toContain('keeps the minimum clearance');
  });
});
