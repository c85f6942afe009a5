/** Standing in front of a header, beside it, above it, and moving about. */

import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { dot } from '../../../core/path/vector.ts';
import {
  cameraAfterKey,
  FLAT_VIEWS,
  fitCamera,
  panCamera,
  projector,
  STANDARD_VIEWS,
  screenAxes,
  turnCamera,
  type ViewCamera,
  zoomCamera,
} from '../../../renderer/view/camera/view-camera.ts';

const SIZE = { widthPx: 400, heightPx: 300 } as const;
const CAMERA: ViewCamera = { target: { x: 1, y: 2, z: 3 }, azimuthDeg: 50, elevationDeg: 28, heightMm: 300 };
const AXES = { forward: { x: 10, y: 0, z: 0 }, outboard: { x: 0, y: 10, z: 0 }, up: { x: 0, y: 0, z: 10 } } as const;

const viewOf = (id: string) => {
  const view = FLAT_VIEWS.find((candidate) => candidate.id === id);
  if (view === undefined) throw new Error(id);
  return { ...view, target: { x: 0, y: 0, z: 0 }, heightMm: 300 };
};

describe('standard views', () => {
  test.each([
    ['front', 'outboard', 1, 0],
    ['front', 'up', 0, -1],
    ['front', 'forward', 0, 0],
    ['side', 'forward', -1, 0],
    ['side', 'up', 0, -1],
    ['side', 'outboard', 0, 0],
    ['top', 'forward', 0, -1],
    ['top', 'outboard', -1, 0],
    ['top', 'up', 0, 0],
  ] as const)('from the %s, %s goes %d right and %d down', (id, axis, right, down) => {
    const project = projector(viewOf(id), SIZE);
    const [from, to] = [project({ x: 0, y: 0, z: 0 }), project(AXES[axis])];
    // 300 px for 300 mm.
    expect(Math.abs(to.x - from.x - 10 * right)).toBeLessThan(1e-9);
    expect(Math.abs(to.y - from.y - 10 * down)).toBeLessThan(1e-9);
  });

  test('what is nearer to the eye has the larger nearness', () => {
    expect(projector(viewOf('front'), SIZE)(AXES.forward).nearMm).toBeCloseTo(10, 9);
    expect(projector(viewOf('side'), SIZE)(AXES.outboard).nearMm).toBeCloseTo(10, 9);
    expect(projector(viewOf('top'), SIZE)(AXES.up).nearMm).toBeCloseTo(10, 9);
  });
});

const angles = fc.record({
  azimuthDeg: fc.double({ min: 0, max: 360, noNaN: true }),
  elevationDeg: fc.double({ min: -90, max: 90, noNaN: true }),
});

test('the axes of the screen are square to each other and right-handed, whatever the angles', () => {
  fc.assert(
    fc.property(angles, (from) => {
      const { right, up, towards } = screenAxes(from);
      for (const [a, b] of [
        [right, up],
        [up, towards],
        [towards, right],
      ] as const) {
        expect(Math.abs(dot(a, b))).toBeLessThan(1e-12);
        expect(Math.abs(dot(a, a) - 1)).toBeLessThan(1e-12);
      }
      expect(right.x * up.y - right.y * up.x - towards.z).toBeCloseTo(0, 12);
    }),
  );
});

test('everything is in the picture, from any side', () => {
  const coordinate = fc.double({ min: -500, max: 500, noNaN: true });
  const reach = fc.record({
    point: fc.record({ x: coordinate, y: coordinate, z: coordinate }),
    reachMm: fc.double({ min: 1, max: 60, noNaN: true }),
  });
  fc.assert(
    fc.property(fc.array(reach, { minLength: 1, maxLength: 12 }), angles, (reaches, from) => {
      const camera = fitCamera(from, reaches, SIZE);
      const project = projector(camera, SIZE);
      const perMm = SIZE.heightPx / camera.heightMm;
      for (const { point, reachMm } of reaches) {
        const { x, y } = project(point);
        expect(x - reachMm * perMm).toBeGreaterThanOrEqual(0);
        expect(x + reachMm * perMm).toBeLessThanOrEqual(SIZE.widthPx);
        expect(y - reachMm * perMm).toBeGreaterThanOrEqual(0);
        expect(y + reachMm * perMm).toBeLessThanOrEqual(SIZE.heightPx);
      }
    }),
  );
});

test('with nothing to see and no room there is still a camera', () => {
  for (const view of STANDARD_VIEWS) {
    const camera = fitCamera(view, [], { widthPx: 0, heightPx: 0 });
    expect(Number.isFinite(camera.heightMm) && camera.heightMm > 0).toBe(true);
  }
});

describe('moving about', () => {
  test('turning never goes over the top, and comes round', () => {
    expect(turnCamera(CAMERA, { around: 0, over: 500 }).elevationDeg).toBe(90);
    expect(turnCamera(CAMERA, { around: 0, over: -500 }).elevationDeg).toBe(-90);
    expect(turnCamera(CAMERA, { around: 360, over: 0 }).azimuthDeg).toBe(50);
    expect(turnCamera(CAMERA, { around: -60, over: 0 }).azimuthDeg).toBe(350);
  });

  test('panning moves what is seen by that share of the height', () => {
    const before = projector(CAMERA, SIZE)({ x: 9, y: 8, z: 7 });
    const after = projector(panCamera(CAMERA, { right: 0.1, up: 0.2 }), SIZE)({ x: 9, y: 8, z: 7 });
    expect(after.x - before.x).toBeCloseTo(30, 9);
    expect(after.y - before.y).toBeCloseTo(-60, 9);
  });

  test('zooming in and out again changes nothing, and stops somewhere', () => {
    expect(zoomCamera(zoomCamera(CAMERA, 2), 0.5)).toEqual(CAMERA);
    expect(zoomCamera(CAMERA, 1e12).heightMm).toBe(5);
    expect(zoomCamera(CAMERA, 1e-12).heightMm).toBe(1e5);
  });

  test('arrows turn, with Shift they move; plus and minus zoom; other keys do nothing', () => {
    const pressed = (key: string, shift = false) => cameraAfterKey(CAMERA, { key, shift });
    expect(pressed('ArrowRight')?.azimuthDeg).toBe(40);
    expect(pressed('ArrowLeft')?.azimuthDeg).toBe(60);
    expect(pressed('ArrowUp')?.elevationDeg).toBe(18);
    expect(pressed('ArrowDown')?.elevationDeg).toBe(38);
    expect(pressed('ArrowRight', true)?.target).not.toEqual(CAMERA.target);
    expect(pressed('ArrowRight', true)?.azimuthDeg).toBe(50);
    expect(pressed('+')?.heightMm).toBeLessThan(300);
    expect(pressed('-')?.heightMm).toBeGreaterThan(300);
    expect(pressed('a')).toBeNull();
    expect(pressed('Enter')).toBeNull();
  });
});
