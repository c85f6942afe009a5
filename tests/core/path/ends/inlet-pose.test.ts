/** Where inlets are: measured, or where another primary ends; and what is said when they are not. */

import { expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import type { Collector, Header, InletPlace } from '../../../../core/header/header.ts';
import { isClosed } from '../../../../core/path/ends/closure.ts';
import {
  closureLimits,
  findInlet,
  inletFrame,
  placedPath,
  primaryClosure,
} from '../../../../core/path/ends/inlet-pose.ts';
import { inches, mmOf } from '../../../../core/units/length.ts';
import { expectWithin } from '../../../tolerance.ts';
import { ALONG_X, bend, foundValue, headerOf, poseAt, primaryOf, problemOf, straight } from '../made-primaries.ts';

function headerWith(place: InletPlace | null, pieces = [straight(100)]): Header {
  const slip = { deeper: inches(0.25), shallower: inches(0) };
  const collector: Collector = { id: 'c', name: 'c', inlets: [{ id: 'i', name: 'left', place, slip }] };
  const primary = primaryOf(pieces, { id: 'p2', name: '2', port: ALONG_X, inletId: 'i' });
  return headerOf([primary], { collectors: [collector] });
}

const primaryIn = (header: Header) => {
  const [primary] = header.primaries;
  if (primary === undefined) throw new Error('no primary');
  return primary;
};

test('a measured inlet is its pose', () => {
  const pose = poseAt({ x: 110, y: 0, z: 0 }, { x: 2, y: 0, z: 0 }, { x: 0, y: 0, z: 1 });
  const header = headerWith({ kind: 'pose', pose });
  expectWithin(foundValue(primaryClosure(header, primaryIn(header))).alongMm, 10, 1e-12);
});

test('an inlet where a primary ends is met exactly by that primary', () => {
  const header = headerWith({ kind: 'endOf', primaryId: 'p2' });
  expectWithin(foundValue(primaryClosure(header, primaryIn(header))).gapMm, 0, 0);
  expect(foundValue(inletFrame(header, 'i'))).toEqual(foundValue(placedPath(primaryIn(header))).end);
});

test('what is missing is named', () => {
  const measured = headerWith(null);
  expect(problemOf(inletFrame(measured, 'i'))).toMatchObject({ kind: 'inletNotMeasured', inletName: 'left' });
  expect(problemOf(inletFrame(measured, 'j'))).toMatchObject({ kind: 'noSuchInlet', inletId: 'j' });
  expect(problemOf(inletFrame(headerWith({ kind: 'endOf', primaryId: 'p9' }), 'i'))).toMatchObject({
    kind: 'noSuchPrimary',
  });
  const unassigned = { ...primaryIn(measured), inletId: null };
  expect(problemOf(primaryClosure(measured, unassigned))).toMatchObject({ kind: 'inletNotAssigned', primaryName: '2' });
  expect(problemOf(placedPath({ ...unassigned, port: null }))).toMatchObject({ kind: 'portMissing', primaryName: '2' });
});

test('an inlet at the end of a primary whose way is not known is not known either', () => {
  const header = headerWith({ kind: 'endOf', primaryId: 'p2' }, [bend(80, 90, null)] as never);
  expect(problemOf(inletFrame(header, 'i'))).toMatchObject({ kind: 'pathUnknown', pieceNumber: 1 });
});

test('a bad inlet pose points at its field', () => {
  const pose = poseAt({ x: 0, y: 0, z: 0 }, { x: 0, y: 0, z: 0 }, { x: 0, y: 0, z: 1 });
  const problem = problemOf(inletFrame(headerWith({ kind: 'pose', pose }), 'i'));
  expect(problem).toMatchObject({ kind: 'poseZeroDirection', path: ['inlets', 'i', 'place', 'pose', 'direction'] });
});

test('what counts as closed comes from the header, and the slip from the inlet', () => {
  const header = headerWith(null);
  const inlet = findInlet(header, 'i');
  if (inlet === null) throw new Error('no inlet');
  const { gap, tiltDeg } = header.settings.closure;
  expect(closureLimits(header, inlet)).toEqual({ gapMm: mmOf(gap), tiltDeg, deeperMm: 6.35, shallowerMm: 0 });
});

test('in the demo header, primaries 1 and 4 are closed, and 2 and 3 miss by a little', () => {
  const header = demoHeader('demo');
  const closed = header.primaries.map((primary) => {
    const inlet = findInlet(header, primary.inletId ?? '');
    if (inlet === null) throw new Error('no inlet');
    const noSlip = { ...closureLimits(header, inlet), deeperMm: 0, shallowerMm: 0 };
    return isClosed(foundValue(primaryClosure(header, primary)), noSlip);
  });
  expect(closed).toEqual([true, false, false, true]);
});
