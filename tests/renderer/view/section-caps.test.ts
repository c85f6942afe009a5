/** The cut faces of a section against plane geometry: a plane across a tube cuts a ring, one along its axis two strips. */

import { polygonArea } from 'd3';
import { describe, expect, test } from 'vitest';
import { demoHeader } from '../../../core/index.ts';
import { describeScene } from '../../../renderer/view/scene/describe-scene.ts';
import type { SceneTube } from '../../../renderer/view/scene/scene.ts';
import { type CapFace, type CutPoint, capFaces } from '../../../renderer/view/scene/section-caps.ts';
import type { SectionCut } from '../../../renderer/view/scene/section-cut.ts';
import { tubeSurface } from '../../../renderer/view/scene/tube-surface.ts';

const OD = 45;
const BORE = 41;
const LENGTH = 200;

/** One straight along x from the origin. */
function straightTube(): SceneTube {
  const [tangent, normal] = [
    { x: 1, y: 0, z: 0 },
    { x: 0, y: 0, z: 1 },
  ];
  const at = (x: number) => ({ point: { x, y: 0, z: 0 }, tangent, normal });
  const [start, end] = [at(0), at(LENGTH)];
  const span = { kind: 'line', pieceIndex: 0, start: start.point, end: end.point, tangent, lengthMm: LENGTH } as const;
  const pieces = [{ pieceId: 'a', spans: [span], start, end }];
  return { primaryId: 'p', name: '1', odMm: OD, wallMm: (OD - BORE) / 2, isPlaced: true, start, end, pieces };
}

function facesOf(tube: SceneTube, cut: SectionCut, hasBore = true): readonly CapFace[] {
  const bore = hasBore ? tubeSurface({ ...tube, odMm: tube.odMm - 2 * tube.wallMm }) : null;
  return capFaces(tube, { outside: tubeSurface(tube), bore }, cut);
}

const areaOf = (loop: readonly CutPoint[]) => Math.abs(polygonArea(loop as CutPoint[]));
const netArea = ({ outer, holes }: CapFace) => areaOf(outer) - holes.reduce((sum, hole) => sum + areaOf(hole), 0);
/** Of a circle of 48 chords: n r^2 sin(2 pi / n) / 2. */
const discOf = (diameter: number) => (48 * (diameter / 2) ** 2 * Math.sin((2 * Math.PI) / 48)) / 2;

describe('a section', () => {
  test('across a tube is a ring: the disc of its OD without that of its bore', () => {
    const faces = facesOf(straightTube(), { axis: 'x', atMm: 80, keeps: 'below' });
    expect(faces).toHaveLength(1);
    expect(faces[0]?.holes).toHaveLength(1);
    expect(faces.map(netArea)[0]).toBeCloseTo(discOf(OD) - discOf(BORE), 2);
  });

  test('along its axis is the wall on either side of the bore, as long as the tube', () => {
    const faces = facesOf(straightTube(), { axis: 'y', atMm: 0, keeps: 'above' });
    expect(faces).toHaveLength(1);
    // But for the hundredths of a millimetre by which the bore is closed within the ends.
    expect(faces[0]?.holes).toHaveLength(1);
    expect(faces.map(netArea)[0]).toBeCloseTo((OD - BORE) * LENGTH + 0.1 * BORE, 1);
  });

  test('of a bar without a bore is the whole disc, and beyond the tube there is none', () => {
    const [disc] = facesOf(straightTube(), { axis: 'x', atMm: 80, keeps: 'below' }, false);
    expect(disc === undefined ? 0 : netArea(disc)).toBeCloseTo(discOf(OD), 2);
    expect(facesOf(straightTube(), { axis: 'x', atMm: LENGTH + 1, keeps: 'below' })).toEqual([]);
  });

  test('of the demo closes every edge, wherever it lies', () => {
    const { tubes, bounds } = describeScene(demoHeader('demo'), { primaryId: null, pieceId: null });
    if (bounds === null) throw new Error('nothing to cut');
    let count = 0;
    for (const axis of ['x', 'y', 'z'] as const) {
      for (let share = 0.05; share < 1; share += 0.1) {
        const atMm = bounds.low[axis] + share * (bounds.high[axis] - bounds.low[axis]);
        for (const tube of tubes) {
          for (const face of facesOf(tube, { axis, atMm, keeps: 'below' })) {
            count += 1;
            // A wall and no more, and never a crossed or doubled edge, which would leave nothing.
            expect(areaOf(face.outer)).toBeGreaterThan(0);
            expect(netArea(face)).toBeLessThanOrEqual(areaOf(face.outer) + 1e-9);
          }
        }
      }
    }
    expect(count).toBeGreaterThan(50);
  });
});
