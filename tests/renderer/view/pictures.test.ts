/** Names and figures over the picture, flat outlines, and what a section leaves. */

import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../core/header/demo-header.ts';
import { headerClearances } from '../../../core/index.ts';
import { annotate } from '../../../renderer/view/annotations/annotations.ts';
import { type PictureLabel, spreadLabels } from '../../../renderer/view/annotations/labels.ts';
import {
  FIRST_VIEW,
  FLAT_VIEWS,
  fitCamera,
  type NamedView,
  type StandardView,
} from '../../../renderer/view/camera/view-camera.ts';
import { flatPicture } from '../../../renderer/view/flat/flat-outlines.ts';
import { bodyOutline, planePatch } from '../../../renderer/view/scene/body-outline.ts';
import { describeScene } from '../../../renderer/view/scene/describe-scene.ts';
import type { Scene } from '../../../renderer/view/scene/scene.ts';
import { cutPlane, isKept, middleCut, withinBounds } from '../../../renderer/view/scene/section-cut.ts';
import { headerOf, poseAt, primaryOf, straight } from '../../core/path/made-primaries.ts';

const SIZE = { widthPx: 300, heightPx: 300 } as const;
const demo = demoHeader('pictures');
const scene = describeScene(demo, { primaryId: 'primary-2', pieceId: 'piece-2-2' }, headerClearances(demo));

describe('labels', () => {
  const label = (key: string, x: number, y: number): PictureLabel => ({
    key,
    kind: 'gap',
    text: '3/16"',
    x,
    y,
    atX: x,
    atY: y,
    isInHand: false,
  });

  test('in one place are spread so that none covers another, and keep pointing at their place', () => {
    const spread = spreadLabels(
      Array.from({ length: 9 }, (_, index) => label(String(index), 50, 50)),
      16,
    );
    expect(spread.map(({ key }) => key).sort()).toEqual(['0', '1', '2', '3', '4', '5', '6', '7', '8']);
    for (const [index, one] of spread.entries()) {
      expect([one.atX, one.atY]).toEqual([50, 50]);
      for (const other of spread.slice(index + 1)) expect(Math.abs(one.y - other.y)).toBeGreaterThanOrEqual(16);
    }
  });

  test('that are apart stay where they are', () => {
    const labels = [label('a', 0, 50), label('b', 200, 50), label('c', 0, 90)];
    expect(spreadLabels(labels, 16)).toEqual(labels);
  });

  test('of ports that lie behind one another on paper are one label', () => {
    const namesSeen = (view: NamedView, names: readonly string[]) => {
      const primaries = demo.primaries.map((primary, index) => ({ ...primary, name: names[index] ?? primary.name }));
      const row = { ...demo, primaries };
      const seen = describeScene(row, { primaryId: 'primary-2', pieceId: null }, headerClearances(row));
      const camera = fitCamera(view, seen.reaches, SIZE);
      const { labels } = annotate(seen, { camera, size: SIZE, textPx: 12, section: null, labelled: 'all' });
      return labels.filter(({ kind }) => kind === 'primary').map(({ text }) => text);
    };
    // The frame of the demo: x is forward along the row of ports, and the front view looks along it.
    const [front, , top] = FLAT_VIEWS;
    if (front === undefined || top === undefined) throw new Error('there are three flat views');
    expect(namesSeen(front, [])).toEqual(['1\u20134']);
    expect(namesSeen(front, ['1', '3', '5', '7'])).toEqual(['1, 3, 5, 7']);
    expect(namesSeen(front, ['left', 'right'])).toEqual(['left, right, 3, 4']);
    expect(namesSeen(top, [])).toEqual(['1', '2', '3', '4']);
  });

  test('name every primary, the one in hand marked', () => {
    const camera = fitCamera(FIRST_VIEW, scene.reaches, SIZE);
    const { labels } = annotate(scene, { camera, size: SIZE, textPx: 16, section: null, labelled: 'all' });
    const names = labels.filter(({ kind }) => kind === 'primary');
    expect(names.map(({ text, isInHand }) => [text, isInHand])).toEqual([
      ['1', false],
      ['2', true],
      ['3', false],
      ['4', false],
    ]);
  });

  test('of what a section takes away are not drawn', () => {
    const camera = fitCamera(FIRST_VIEW, scene.reaches, SIZE);
    // Port 1 is at 0 forward, port 4 at -12.75 in.
    const section = { axis: 'x', atMm: -100, keeps: 'below' } as const;
    const { labels } = annotate(scene, { camera, size: SIZE, textPx: 16, section, labelled: 'all' });
    expect(labels.filter(({ kind }) => kind === 'primary').map(({ text }) => text)).toEqual(['2', '3', '4']);
  });
});

/** All numbers of a path, as points. */
function pointsOf(path: string): readonly (readonly [number, number])[] {
  return [...path.matchAll(/[ML](-?[\d.]+)[ ,](-?[\d.]+)/g)].map(([, x, y]) => [Number(x), Number(y)]);
}

function flatView(id: StandardView): NamedView {
  const view = FLAT_VIEWS.find((candidate) => candidate.id === id);
  if (view === undefined) throw new Error(`there is no flat view ${id}`);
  return view;
}

/** Two straight tubes with ports at -100 and 100 along the axis that the eye looks along, in the order given. */
function oneBehindTheOther(axis: 'x' | 'y' | 'z', order: readonly ('near' | 'far')[]): Scene {
  const [at, across] = [{ x: 0, y: 0, z: 0 }, axis === 'y' ? { x: 1, y: 0, z: 0 } : { x: 0, y: 1, z: 0 }];
  const up = axis === 'z' ? { x: 1, y: 0, z: 0 } : { x: 0, y: 0, z: 1 };
  const made = headerOf(
    order.map((id) => {
      const port = poseAt({ ...at, [axis]: id === 'near' ? 100 : -100 }, across, up);
      return primaryOf([straight(50)], { id, name: id, port });
    }),
  );
  return describeScene(made, { primaryId: null, pieceId: null }, headerClearances(made));
}

const FLAT = [
  ['front', 'x'],
  ['side', 'y'],
  ['top', 'z'],
] as const;

test('the flat views are these three, each looked at below', () => {
  expect(FLAT_VIEWS.map(({ id }) => id)).toEqual(FLAT.map(([id]) => id));
});

describe.each(FLAT)('the flat view %s', (id, axis) => {
  const camera = fitCamera(flatView(id), scene.reaches, SIZE);
  const { pieces, outlines } = flatPicture(scene, camera, SIZE);

  test('shows every piece at its OD, and the one that is chosen', () => {
    expect(pieces.map(({ pieceId }) => pieceId).sort()).toEqual(
      demo.primaries.flatMap((primary) => primary.pieces.map((piece) => piece.id)).sort(),
    );
    // The demo's tubes are 1 3/4 in.
    const odPx = (1.75 * 25.4 * SIZE.heightPx) / camera.heightMm;
    for (const { widthPx } of pieces) expect(Math.abs(widthPx - odPx)).toBeLessThan(1e-9);
    expect(outlines.filter(({ kind }) => kind === 'port').length).toBe(4);
    expect(pieces.filter(({ isSelected }) => isSelected).map(({ pieceId }) => pieceId)).toEqual(['piece-2-2']);
  });

  test('lies within the picture', () => {
    for (const { centreline, ends } of pieces) {
      for (const path of [centreline, ...ends]) {
        const points = pointsOf(path);
        expect(points.length).toBeGreaterThan(1);
        for (const [x, y] of points) expect(x >= 0 && y >= 0 && x <= SIZE.widthPx && y <= SIZE.heightPx).toBe(true);
      }
    }
  });

  test('draws the farthest first, whatever the order of the primaries', () => {
    for (const order of [['near', 'far'] as const, ['far', 'near'] as const]) {
      const two = oneBehindTheOther(axis, order);
      const drawn = flatPicture(two, fitCamera(flatView(id), two.reaches, SIZE), SIZE).pieces;
      expect(drawn.map(({ primaryId }) => primaryId)).toEqual(['far', 'near']);
    }
  });
});

describe('from the top', () => {
  test('the port of primary 1 points outboard, which is to the left', () => {
    const { pieces } = flatPicture(scene, fitCamera(flatView('top'), scene.reaches, SIZE), SIZE);
    const first = pieces.find(({ pieceId }) => pieceId === 'piece-1-1');
    const [[fromX, fromY], [toX, toY]] = pointsOf(first?.centreline ?? '') as [[number, number], [number, number]];
    expect(toX).toBeLessThan(fromX);
    expect(Math.abs(toY - fromY)).toBeLessThan(0.11);
  });
});

describe('sections', () => {
  const bounds = { low: { x: -100, y: 0, z: -50 }, high: { x: 100, y: 200, z: 0 } } as const;

  test('cut through the middle first, and stay within the bounds', () => {
    expect(middleCut('y', bounds)).toEqual({ axis: 'y', atMm: 100, keeps: 'below' });
    expect(withinBounds({ axis: 'z', atMm: 900, keeps: 'above' }, bounds).atMm).toBe(0);
  });

  test('the plane keeps the side that is said to stay', () => {
    for (const keeps of ['below', 'above'] as const) {
      for (const axis of ['x', 'y', 'z'] as const) {
        const cut = { axis, atMm: 10, keeps };
        const { normal, constant } = cutPlane(cut);
        for (const value of [-30, 9, 11, 50]) {
          const point = { x: 0, y: 0, z: 0, [axis]: value };
          const side = normal.x * point.x + normal.y * point.y + normal.z * point.z + constant;
          expect(side >= 0).toBe(isKept(point, cut));
          expect(side >= 0).toBe(keeps === 'below' ? value <= 10 : value >= 10);
        }
      }
    }
  });
});

describe('outlines of bodies', () => {
  test('a box has twelve edges', () => {
    const runs = bodyOutline(
      { kind: 'box', id: 'b', name: 'b', low: { x: 0, y: 0, z: 0 }, high: { x: 1, y: 2, z: 3 } },
      null,
    );
    expect(runs.reduce((edges, run) => edges + run.length - 1, 0)).toBe(12);
  });

  test('a cylinder’s rings are its radius from its axis', () => {
    const runs = bodyOutline(
      { kind: 'cylinder', id: 'c', name: 'c', from: { x: 5, y: 0, z: 0 }, to: { x: 5, y: 0, z: 90 }, radiusMm: 7 },
      null,
    );
    const points = runs.flat();
    // Both rings, one at each end, and more than their corners.
    for (const end of [0, 90]) expect(points.filter(({ z }) => z === end).length).toBeGreaterThan(8);
    for (const { x, y } of points) expect(Math.abs(Math.hypot(x - 5, y) - 7)).toBeLessThan(1e-9);
  });

  test('the shown part of a plane lies on it, beside the header', () => {
    const bounds = { low: { x: 0, y: 0, z: 0 }, high: { x: 100, y: 100, z: 100 } };
    const patch = planePatch({ x: 900, y: 900, z: -20 }, { x: 0, y: 0, z: 1 }, bounds);
    expect(patch.length).toBe(4);
    for (const { z } of patch) expect(z).toBeCloseTo(-20, 9);
    expect(patch.reduce((sum, { x }) => sum + x, 0) / 4).toBeCloseTo(50, 9);
  });
});
