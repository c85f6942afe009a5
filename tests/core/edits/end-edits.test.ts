/** Ports, inlets, patterns and obstacles as steps: each is one, and what it makes is a sound header. */

import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import {
  addInletEdit,
  collectorPatternEdit,
  firstInletPose,
  removeInletEdit,
  replaceInletEdit,
} from '../../../core/edits/collector-edits.ts';
import type { Edit } from '../../../core/edits/edit.ts';
import { addObstacleEdit, OBSTACLE_KINDS } from '../../../core/edits/obstacle-edits.ts';
import { firstPort, portRowEdit } from '../../../core/edits/port-edits.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Header } from '../../../core/header/header.ts';
import { mmOf } from '../../../core/index.ts';
import { inches } from '../../../core/units/length.ts';
import { expectWithin } from '../../tolerance.ts';

function counter(): () => string {
  let count = 0;
  return () => {
    count += 1;
    return `fresh-${count}`;
  };
}

function must(header: Header, edit: Edit): Header {
  const done = applyEdit(header, edit);
  if (!done.ok) throw new Error(JSON.stringify(done.problems));
  return done.value.header;
}

const demo = demoHeader('ends');
const bare: Header = {
  ...demo,
  collectors: [],
  primaries: demo.primaries.map((primary) => ({ ...primary, port: null, inletId: null })),
};

test('a row of ports is one step, each so far along from the one before', () => {
  const edit = portRowEdit(bare.primaries, {
    first: firstPort('in'),
    along: { x: -2, y: 0, z: 0 },
    spacings: [inches(4), inches(4.5), inches(4)],
  });
  if (!edit.ok) throw new Error(JSON.stringify(edit.problems));
  const placed = must(bare, edit.value);
  expect(placed.primaries.map(({ port }) => port?.at.x.value)).toEqual([0, -4, -8.5, -12.5]);
  expect(edit.value.kind).toBe('batch');
});

test('a row that runs nowhere is refused', () => {
  const edit = portRowEdit(bare.primaries, { first: firstPort('in'), along: { x: 0, y: 0, z: 0 }, spacings: [] });
  expect(edit.ok).toBe(false);
});

describe('a collector by its pattern', () => {
  const layout = {
    pattern: 'square',
    count: 4,
    od: inches(1.75),
    gap: inches(0.25),
    centre: firstInletPose('in'),
  } as const;
  const ids = bare.primaries.map(({ id }) => id);

  test('adds all inlets and ends the primaries in them, as one step', () => {
    const edit = collectorPatternEdit(bare, { name: '4 into 1', layout, primaryIds: ids }, counter());
    if (!edit.ok) throw new Error(JSON.stringify(edit.problems));
    const made = must(bare, edit.value);
    const inlets = made.collectors[0]?.inlets ?? [];
    expect(inlets.map(({ name }) => name)).toEqual(['1', '2', '3', '4']);
    expect(made.primaries.map(({ inletId }) => inletId)).toEqual(inlets.map(({ id }) => id));
    const places = inlets.map(({ place }) => (place?.kind === 'pose' ? place.pose.at : null));
    for (const [index, at] of places.entries()) {
      const next = places[(index + 1) % 4];
      if (!at || !next) throw new Error('every inlet has a pose');
      const apart = Math.hypot(mmOf(at.x) - mmOf(next.x), mmOf(at.y) - mmOf(next.y), mmOf(at.z) - mmOf(next.z));
      expectWithin(apart, 2 * 25.4, 1e-9);
    }
  });

  test('takes more primaries than it has inlets, and leaves the rest', () => {
    const pair = { ...layout, pattern: 'sideBySide', count: 2 } as const;
    const edit = collectorPatternEdit(bare, { name: 'pair', layout: pair, primaryIds: ids }, counter());
    if (!edit.ok) throw new Error(JSON.stringify(edit.problems));
    expect(must(bare, edit.value).primaries.map(({ inletId }) => inletId !== null)).toEqual([true, true, false, false]);
  });

  test('there is none of three in a square', () => {
    const edit = collectorPatternEdit(bare, { name: '3', layout: { ...layout, count: 3 }, primaryIds: [] }, counter());
    expect(edit.ok).toBe(false);
  });
});

describe('single inlets', () => {
  test('the first makes its collector, the next joins it, and the last takes it away', () => {
    const newId = counter();
    const one = must(bare, addInletEdit(bare, { kind: 'pose', pose: firstInletPose('mm') }, newId));
    const two = must(one, addInletEdit(one, { kind: 'endOf', primaryId: 'primary-1' }, newId));
    expect(two.collectors.map(({ inlets }) => inlets.map(({ name }) => name))).toEqual([['1', '2']]);
    const [collector] = two.collectors;
    const [first, second] = collector?.inlets ?? [];
    if (!collector || !first || !second) throw new Error('two inlets');
    const left = must(two, removeInletEdit(two, collector, first.id));
    const [last] = left.collectors;
    if (!last) throw new Error('one is left');
    expect(must(left, removeInletEdit(left, last, second.id)).collectors).toEqual([]);
  });

  test('removing one clears the primary that ends in it', () => {
    const [collector] = demo.collectors;
    if (!collector) throw new Error('the demo has a collector');
    const after = must(demo, removeInletEdit(demo, collector, 'inlet-2'));
    expect(after.primaries.map(({ inletId }) => inletId)).toEqual(['inlet-1', null, 'inlet-3', 'inlet-4']);
  });

  test('a primary cannot end where it ends itself, and the header stays as it was', () => {
    const [collector] = demo.collectors;
    const inlet = collector?.inlets[0];
    if (!collector || !inlet) throw new Error('the demo has inlets');
    const edit = replaceInletEdit(collector, { ...inlet, place: { kind: 'endOf', primaryId: 'primary-1' } });
    expect(applyEdit(demo, edit).ok).toBe(false);
  });
});

test.each(OBSTACLE_KINDS)('a new $kind is sound and gets a name of its own', ({ kind }) => {
  const one = must(bare, addObstacleEdit(bare, kind, { id: 'a', unit: 'mm' }));
  const two = must(one, addObstacleEdit(one, kind, { id: 'b', unit: 'in' }));
  expect(two.obstacles.map((obstacle) => obstacle.kind)).toEqual([kind, kind]);
  expect(new Set(two.obstacles.map(({ name }) => name)).size).toBe(2);
});
