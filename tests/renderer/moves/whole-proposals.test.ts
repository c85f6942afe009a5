/** Whole primaries in words, figures and a small picture, as the panel lists them. */

import { expect, test } from 'vitest';
import { demoHeader, type Header, matchHeader, type ProposedPrimary, parseQuickEntry } from '../../../core/index.ts';
import { FIRST_SETTINGS, proposeOptions } from '../../../renderer/moves/move-settings.ts';
import { previewOf, proposedPieces } from '../../../renderer/moves/proposals/moves-preview.ts';
import { answerQuestion } from '../../../renderer/moves/search/answer-question.ts';
import { tubePicture } from '../../../renderer/moves/whole/tube-picture.tsx';
import { wholeProposals } from '../../../renderer/moves/whole/whole-proposals.ts';

const demo = demoHeader('h');

/** The demo with primary 3 empty. */
const header: Header = {
  ...demo,
  primaries: demo.primaries.map((primary) => (primary.id === 'primary-3' ? { ...primary, pieces: [] } : primary)),
};

function proposed(): readonly ProposedPrimary[] {
  const options = proposeOptions(FIRST_SETTINGS, null);
  const answer = answerQuestion({ kind: 'whole', header, primaryId: 'primary-3', options, budgetMs: 300 });
  if (answer.kind !== 'whole' || answer.outcome.kind !== 'found') throw new Error('nothing was proposed');
  return answer.outcome.proposals;
}

test('a proposal reads as it would be typed, and is shown with its figures and its picture', () => {
  const found = proposed();
  const [first] = wholeProposals(found, header);
  const typed = first?.lines[0]?.replace('typed in inches: ', '') ?? '';
  const read = parseQuickEntry(typed, { unit: 'in', clr: header.settings.clr });
  expect(read.ok && read.value.map(({ kind }) => kind)).toEqual(found[0]?.pieces.map(({ kind }) => kind));
  expect(first?.cells.result.verdict).toBe('inBand');
  expect(first?.cells.bends.text).toBe(String(found[0]?.bends));
  expect(first?.picture?.others).toHaveLength(3);
  expect(first?.picture?.own).toMatch(/^M[\d.,L-]+$/);
});

test('looked at, it is in the header beside the one in hand, at its target', () => {
  const [first] = wholeProposals(proposed(), header);
  const preview = previewOf(first ?? null, header);
  const own = matchHeader(preview?.after ?? header).primaries.find(({ primaryId }) => primaryId === 'primary-3');
  expect(own?.side).toBe('inBand');
  expect(preview?.before).toBe(header);
});

test('looked at, what it puts at the end is listed, and nothing where it only changes what is there', () => {
  const found = proposed();
  const [first] = wholeProposals(found, header);
  const own = header.primaries.find(({ id }) => id === 'primary-3');
  const other = header.primaries.find(({ id }) => id === 'primary-1');
  if (own === undefined || other === undefined) throw new Error('the demo has other primaries');
  const preview = previewOf(first ?? null, header);
  expect(proposedPieces(preview, own)).toEqual(found[0]?.pieces);
  expect(proposedPieces(preview, other)).toEqual([]);
  expect(proposedPieces(null, own)).toEqual([]);
  const [start, ...rest] = found[0]?.pieces ?? [];
  if (preview === null || start === undefined) throw new Error('nothing is previewed');
  // Kept pieces after a new one have rows of their own.
  expect(proposedPieces(preview, { ...own, pieces: rest })).toEqual([]);
  expect(proposedPieces(preview, { ...own, pieces: [start] })).toEqual(rest);
});

test('without a target one is the shortest in the list, and the others say how much longer they are', () => {
  const [first] = proposed();
  if (first === undefined) throw new Error('nothing was proposed');
  const made = (lengthMm: number): ProposedPrimary => ({ ...first, lengthMm, deviationMm: null });
  const listed = wholeProposals([made(609.6), made(596.9), made(635)], header);
  expect(listed.map(({ cells }) => cells.result.text.replaceAll('\u2009', ' '))).toEqual([
    '1/2" longer',
    'shortest',
    '1 1/2" longer',
  ]);
});

test('tubes that lie in one another are told apart in the picture', () => {
  const twin = { ...(header.primaries[0] as (typeof header.primaries)[number]), id: 'twin' };
  const picture = tubePicture({ ...demo, primaries: [...demo.primaries, twin] }, 'primary-3');
  expect(picture?.others.map(({ id }) => id)).toEqual(['primary-1', 'primary-2', 'primary-4', 'twin']);
});

test('a primary that lies nowhere has no picture', () => {
  const loose = header.primaries.map((primary) => ({ ...primary, port: null }));
  expect(tubePicture({ ...header, primaries: loose }, 'primary-1')).toBeNull();
  expect(tubePicture(header, 'primary-3')).toBeNull();
});
