/** The cut faces of all tubes as one three.js object, made anew when a tube or the cut is another. */

import { BufferAttribute, BufferGeometry, Group, LineSegments, Mesh, ShapeUtils, Vector2 } from 'three';
import { type CapFace, type CutPoint, capFaces, spacePoint } from '../scene/section-caps.ts';
import type { SectionCut } from '../scene/section-cut.ts';
import { type TubeSurface, tubeSurface } from '../scene/tube-surface.ts';
import type { TubeObject, ViewMaterials } from './scene-meshes.ts';

/** How far on the kept side of the plane the faces lie, mm, so that they are not cut away themselves. */
const KEPT_MM = 0.02;

export class CapObject {
  readonly group = new Group();

  constructor(tubes: Iterable<TubeObject>, cut: SectionCut, materials: ViewMaterials) {
    const atMm = cut.atMm + (cut.keeps === 'below' ? -KEPT_MM : KEPT_MM);
    const place = (point: CutPoint) => spacePoint(point, cut.axis, atMm);
    const faces = [...tubes].flatMap((tube) => [
      ...capFaces(tube.tube, { outside: tube.surface, bore: boreOf(tube) }, cut),
    ]);
    if (faces.length === 0) return;
    this.group.add(new Mesh(geometryOf(faces.flatMap((face) => triangles(face).flatMap(place))), materials.cut));
    this.group.add(new LineSegments(geometryOf(faces.flatMap((face) => edges(face).flatMap(place))), materials.seam));
  }

  dispose(): void {
    for (const child of this.group.children) {
      if (child instanceof Mesh || child instanceof LineSegments) child.geometry.dispose();
    }
  }
}

const bores = new WeakMap<TubeObject, TubeSurface | null>();

/** Null: a tube without a bore, which is cut as a bar. */
function boreOf(object: TubeObject): TubeSurface | null {
  const known = bores.get(object);
  if (known !== undefined) return known;
  const { tube } = object;
  const boreMm = tube.odMm - 2 * tube.wallMm;
  const bore = boreMm > 0 && tube.wallMm > 0 ? tubeSurface({ ...tube, odMm: boreMm }) : null;
  bores.set(object, bore);
  return bore;
}

function triangles({ outer, holes }: CapFace): readonly CutPoint[] {
  const vectors = (loop: readonly CutPoint[]) => loop.map(([across, beside]) => new Vector2(across, beside));
  const corners = [...outer, ...holes.flat()];
  return ShapeUtils.triangulateShape(vectors(outer), holes.map(vectors)).flatMap((triangle) =>
    triangle.map((index): CutPoint => corners[index] ?? [0, 0]),
  );
}

function edges({ outer, holes }: CapFace): readonly CutPoint[] {
  return [outer, ...holes].flatMap((loop) =>
    loop.flatMap((point, index): readonly CutPoint[] => [point, loop[(index + 1) % loop.length] ?? point]),
  );
}

function geometryOf(numbers: readonly number[]): BufferGeometry {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(numbers), 3));
  return geometry;
}
