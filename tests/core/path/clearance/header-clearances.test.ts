/** All gaps of a header: which are listed, which are tight, and what is left out. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../../core/header/demo-header.ts';
import type { Collector, Obstacle } from '../../../../core/header/header.ts';
import { gapsInOrder, headerClearances } from '../../../../core/path/clearance/header-clearances.ts';
import { inches, millimetres } from '../../../../core/units/length.ts';
import { expectWithin } from '../../../tolerance.ts';
import { bend, headerOf, poseAt, primaryOf, straight } from '../made-primaries.ts';

const tube = { material: '304', od: millimetres(40), wall: millimetres(1.5) };

function outboardAt(x: number, name: string, pieces = [straight(100)]) {
  const port = poseAt({ x, y: 0, z: 0 }, { x: 0, y: 1, z: 0 }, { x: 0, y: 0, z: 1 });
  return primaryOf(pieces, { id: name, name, port });
}

describe('a row of parallel straights of OD 40', () => {
  const header = headerOf(
    [outboardAt(0, 'a'), outboardAt(50, 'b'), outboardAt(95, 'c')],
    {},
    { tube, wantedGap: millimetres(8) },
  );

  test('every pair is measured once, and those under the wanted gap come smallest first', () => {
    const { gaps, tight, problems } = headerClearances(header);
    expect(gaps.map((gap) => gap.kind === 'pair' && `${gap.primaryIdA}${gap.primaryIdB}`)).toEqual(['ab', 'ac', 'bc']);
    [10, 55, 5].forEach((expected, index) => {
      expectWithin(gaps[index]?.clearance.gapMm ?? Number.NaN, expected, 1e-9);
    });
    expect(tight.map((gap) => gap.kind === 'pair' && `${gap.primaryIdA}${gap.primaryIdB}`)).toEqual(['bc']);
    expect(problems).toEqual([]);
  });

  test('a gap that is exactly as wanted is not tight', () => {
    const exact = { ...header, settings: { ...header.settings, wantedGap: millimetres(5) } };
    expect(headerClearances(exact).tight).toEqual([]);
  });

  test("a primary's own tube counts", () => {
    const [first, second] = header.primaries;
    if (first === undefined || second === undefined) throw new Error('no primaries');
    const own = { ...second, tube: { ...tube, od: millimetres(60) } };
    const [gap] = headerClearances({ ...header, primaries: [first, own] }).gaps;
    expectWithin(gap?.clearance.gapMm ?? Number.NaN, 0, 1e-9);
  });

  test('a primary whose way is not known is left out with the reason, and the others are measured', () => {
    const unknown = outboardAt(200, 'd', [bend(80, 90, null)] as never);
    const lost = primaryOf([straight(10)], { id: 'e', name: 'e' });
    const bad = {
      ...outboardAt(300, 'f'),
      port: poseAt({ x: 0, y: 0, z: 0 }, { x: 0, y: 0, z: 0 }, { x: 0, y: 0, z: 1 }),
    };
    const empty = outboardAt(400, 'g', []);
    const { gaps, problems } = headerClearances({
      ...header,
      primaries: [...header.primaries, unknown, lost, bad, empty],
    });
    expect(gaps).toHaveLength(3);
    expect(problems.map(({ kind }) => kind)).toEqual(['pathUnknown', 'portMissing', 'poseZeroDirection']);
  });

  test('obstacles are measured against every primary', () => {
    const wall: Obstacle = {
      kind: 'plane',
      id: 'floor',
      name: 'floor',
      at: { x: millimetres(0), y: millimetres(0), z: millimetres(-25) },
      normal: { x: 0, y: 0, z: 1 },
    };
    const { gaps, tight } = headerClearances({ ...header, obstacles: [wall] });
    expect(gaps.filter(({ kind }) => kind === 'obstacle')).toHaveLength(3);
    expect(tight.filter(({ kind }) => kind === 'obstacle').map(({ clearance }) => Math.round(clearance.gapMm))).toEqual(
      [5, 5, 5],
    );
  });

  describe('that go into one collector', () => {
    const inlet = (id: string) => ({ id, name: id, place: null, slip: { deeper: inches(0), shallower: inches(0) } });
    const collector: Collector = { id: 'c', name: 'c', inlets: [inlet('i1'), inlet('i2')] };

    test('meet there, which is told, and is not tight', () => {
      // An S brings them from 13.7 mm apart to 3 over its 42 mm; wanted are 8.
      const closing = outboardAt(70, 'b', [straight(100), bend(40, 30, 0), bend(40, 30, 180)] as never);
      const shiftMm = 80 * (1 - Math.cos(Math.PI / 6));
      const beside = outboardAt(70 - shiftMm - 43, 'a', [straight(140)]);
      const turned = { ...closing, port: poseAt({ x: 70, y: 0, z: 0 }, { x: 0, y: 1, z: 0 }, { x: -1, y: 0, z: 0 }) };
      const primaries = [
        { ...beside, inletId: 'i1' },
        { ...turned, inletId: 'i2' },
      ];
      const { gaps, tight } = headerClearances({ ...header, primaries, collectors: [collector] });
      expect(gaps.map((gap) => gap.kind === 'pair' && gap.isAtCollector)).toEqual([true]);
      expectWithin(gaps[0]?.clearance.gapMm ?? Number.NaN, 3, 1e-6);
      expect(tight).toEqual([]);
      const apart = headerClearances({ ...header, primaries });
      expect(apart.tight).toHaveLength(1);
    });

    test('and run side by side all the way are tight all the same', () => {
      const [a, b, c] = header.primaries;
      if (a === undefined || b === undefined || c === undefined) throw new Error('no primaries');
      const long = [straight(400)];
      const primaries = [a, { ...b, inletId: 'i1', pieces: long }, { ...c, inletId: 'i2', pieces: long }];
      const { tight } = headerClearances({ ...header, primaries, collectors: [collector] });
      expect(tight.map((gap) => gap.kind === 'pair' && `${gap.primaryIdA}${gap.primaryIdB}`)).toEqual(['bc']);
    });
  });

  test('a tube that comes back past itself is measured with itself', () => {
    const hook = outboardAt(0, 'h', [straight(50), bend(60, 180, 0), straight(50)] as never);
    const [gap] = headerClearances({ ...header, primaries: [hook] }).gaps;
    expect(gap?.kind).toBe('self');
    expectWithin(gap?.clearance.gapMm ?? Number.NaN, 80, 1e-6);
  });
});

test('the demo header is measured whole', () => {
  const { gaps, problems } = headerClearances(demoHeader('demo'));
  expect(problems).toEqual([]);
  expect(gaps.filter(({ kind }) => kind === 'pair')).toHaveLength(6);
});

test('gaps come smallest first, those at the collector last', () => {
  const demo = demoHeader('gaps');
  // Wanting more than the demo's inlets leave between them makes its tubes meet at the collector.
  const { gaps } = headerClearances({ ...demo, settings: { ...demo.settings, wantedGap: inches(0.5) } });
  const ordered = gapsInOrder(gaps);
  expect(ordered.length).toBe(gaps.length);
  const isLast = ordered.map((gap) => gap.kind === 'pair' && gap.isAtCollector);
  expect(isLast).toContain(true);
  expect(isLast).toEqual([...isLast].sort((a, b) => Number(a) - Number(b)));
  const others = ordered.filter((_, index) => !isLast[index]).map(({ clearance }) => clearance.gapMm);
  expect(others).toEqual([...others].sort((a, b) => a - b));
});
