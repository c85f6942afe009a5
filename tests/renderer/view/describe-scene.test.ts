/** What there is to see of a header. */

import { describe, expect, test } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Edit } from '../../../core/edits/edit.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Header } from '../../../core/header/header.ts';
import { headerClearances, mmOf } from '../../../core/index.ts';
import { inches, millimetres } from '../../../core/units/length.ts';
import { describeScene } from '../../../renderer/view/scene/describe-scene.ts';

const NOTHING = { primaryId: null, pieceId: null } as const;
const demo = demoHeader('scene');

function edited(header: Header, ...edits: readonly Edit[]): Header {
  return edits.reduce((before, edit) => {
    const done = applyEdit(before, edit);
    if (!done.ok) throw new Error(JSON.stringify(done.problems));
    return done.value.header;
  }, header);
}

const scene = (header: Header, selection: { primaryId: string | null; pieceId: string | null } = NOTHING) =>
  describeScene(header, selection, headerClearances(header));

test('the demo header: four tubes at their OD, four ports, four inlets', () => {
  const { tubes, mouths, notes } = scene(demo);
  expect(tubes.map(({ name, odMm, isPlaced }) => [name, odMm, isPlaced])).toEqual(
    ['1', '2', '3', '4'].map((name) => [name, mmOf(demo.settings.tube.od), true]),
  );
  expect(tubes.map(({ pieces }) => pieces.length)).toEqual(demo.primaries.map(({ pieces }) => pieces.length));
  expect(mouths.map(({ kind }) => kind)).toEqual([...Array(4).fill('port'), ...Array(4).fill('inlet')]);
  expect(notes).toEqual([]);
});

test('an edit of one primary leaves the tubes of the others the same objects', () => {
  const [, second] = demo.primaries;
  const straight = second?.pieces[0];
  if (second === undefined || straight?.kind !== 'straight') throw new Error('the demo begins with a straight');
  const longer = { ...straight, length: inches(4) };
  const after = edited(demo, { kind: 'replacePiece', primaryId: second.id, piece: longer });
  const [before, now] = [scene(demo).tubes, scene(after).tubes];
  expect(now.map((tube, index) => tube === before[index])).toEqual([true, false, true, true]);
});

describe('a primary without a port', () => {
  const header = edited(demo, { kind: 'setPrimary', primaryId: 'primary-2', set: { port: null } });

  test('is drawn beside the others, and that is said', () => {
    const { tubes, notes } = scene(header);
    expect(tubes.map(({ isPlaced }) => isPlaced)).toEqual([true, false, true, true]);
    expect(notes[0]).toMatch(/No port yet: 2\./);
  });

  test('two of them do not stand in one place', () => {
    const both = edited(header, { kind: 'setPrimary', primaryId: 'primary-3', set: { port: null } });
    const [, second, third] = scene(both).tubes;
    expect(second?.start.point).not.toEqual(third?.start.point);
  });
});

test('a bend without clocking is drawn up to, and the note says which', () => {
  const [first] = demo.primaries;
  const bend = first?.pieces[3];
  if (first === undefined || bend?.kind !== 'bend') throw new Error('piece 4 of the demo is a bend');
  const header = edited(demo, { kind: 'replacePiece', primaryId: first.id, piece: { ...bend, clockingDeg: null } });
  const { tubes, notes } = scene(header);
  expect(tubes[0]?.pieces.length).toBe(3);
  expect(notes.join(' ')).toMatch(/Piece 4 of primary 1 has no clocking/);
});

describe('spans', () => {
  test('gaps under the wanted one are between two outsides, that far apart, with the figure', () => {
    const wide = edited(demo, {
      kind: 'setSettings',
      set: { wantedGap: inches(1), display: { kind: 'mm', places: 2 } },
    });
    const gaps = scene(wide).spans.filter(({ kind }) => kind === 'gap');
    expect(gaps.length).toBeGreaterThan(1);
    for (const { from, to, text } of gaps) {
      const apartMm = Math.hypot(from.x - to.x, from.y - to.y, from.z - to.z);
      expect(Math.abs(Number.parseFloat(text) - apartMm)).toBeLessThan(0.006);
    }
  });

  test('none are drawn before clearances are known', () => {
    expect(describeScene(demo, NOTHING).spans.filter(({ kind }) => kind === 'gap')).toEqual([]);
  });

  test('a tight gap that would be shown as the one asked for is shown finer, with what it lacks', () => {
    const leastMm = headerClearances(demo).gaps.reduce((least, gap) => Math.min(least, gap.clearance.gapMm), 1e9);
    const header = edited(demo, {
      kind: 'setSettings',
      set: { wantedGap: millimetres(leastMm + 0.01), display: { kind: 'mm', places: 1 } },
    });
    expect(scene(header).spans.map(({ text }) => text)).toContainEqual(
      expect.stringMatching(/^\S+ (in|mm), 0\.\d+ (in|mm) under$/),
    );
  });

  test('an end that misses its inlet has a line to it', () => {
    const closed = scene(demo).spans.filter(({ kind }) => kind === 'closure');
    const moved = edited(demo, {
      kind: 'setPrimary',
      primaryId: 'primary-1',
      set: { port: { ...portOf(demo), at: { ...portOf(demo).at, x: inches(1) } } },
    });
    const open = scene(moved).spans.filter(({ kind }) => kind === 'closure');
    expect(open.map(({ key }) => key)).toContain('closure primary-1');
    expect(closed.map(({ key }) => key)).not.toContain('closure primary-1');
  });
});

function portOf(header: Header) {
  const port = header.primaries[0]?.port;
  if (!port) throw new Error('primary 1 of the demo has a port');
  return port;
}

describe('the dial', () => {
  test('is at the joint before the selected bend', () => {
    const at = scene(demo, { primaryId: 'primary-1', pieceId: 'piece-1-4' });
    expect(at.dial?.clockingDeg).toBe(90);
    expect(at.dial?.frame).toBe(at.tubes[0]?.pieces[2]?.end);
  });

  test('is not there for a straight, nor for nothing', () => {
    expect(scene(demo, { primaryId: 'primary-1', pieceId: 'piece-1-1' }).dial).toBeNull();
    expect(scene(demo).dial).toBeNull();
  });
});

test('obstacles are seen, and a plane does not make the picture endless', () => {
  const zero = { x: inches(0), y: inches(0), z: inches(0) };
  const header = edited(
    demo,
    {
      kind: 'addObstacle',
      at: 0,
      obstacle: {
        kind: 'plane',
        id: 'o1',
        name: 'floor',
        at: { ...zero, z: inches(-900) },
        normal: { x: 0, y: 0, z: 1 },
      },
    },
    {
      kind: 'addObstacle',
      at: 1,
      obstacle: {
        kind: 'box',
        id: 'o2',
        name: 'rail',
        corner: { ...zero, z: inches(-3) },
        opposite: { ...zero, x: inches(30) },
      },
    },
  );
  const { bodies, bounds } = scene(header);
  expect(bodies.map(({ kind }) => kind)).toEqual(['plane', 'box']);
  expect(bounds?.high.x).toBe(30 * 25.4);
  expect(bounds?.low.z).toBe(scene(demo).bounds?.low.z);
});

test('a header without pieces has nothing to see and no bounds', () => {
  const empty = {
    ...demo,
    primaries: [],
    collectors: [],
    settings: { ...demo.settings, target: { kind: 'longest' } },
  } as const;
  expect(scene(empty)).toMatchObject({ tubes: [], mouths: [], spans: [], bounds: null, reaches: [], dial: null });
});
