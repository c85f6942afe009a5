/** The outside of a tube as a fine mesh, for the distance search that ours is compared with. */

import * as THREE from 'three';
import { binormalOf, pointAt } from '../../core/index.ts';
import type { TubePath } from '../../core/path/trace-primary.ts';
import { addScaled, cross, unit, type Vector } from '../../core/path/vector.ts';

/** Most that chords may sag, mm. Round the tube and along a bend add up, and so do two tubes: 0.01 mm in all. */
const SAG_MM = 0.0025;

/** Half the angle under which a chord of a circle of this radius sags by no more than allowed. */
const halfStepRad = (radiusMm: number) => Math.acos(1 - SAG_MM / radiusMm);

interface Ring {
  readonly centre: Vector;
  readonly across: Vector;
  readonly aside: Vector;
}

function ringsOf(span: TubePath['spans'][number], radiusMm: number): readonly Ring[] {
  if (span.kind === 'line') {
    const other: Vector = Math.abs(span.tangent.x) < 0.9 ? { x: 1, y: 0, z: 0 } : { x: 0, y: 1, z: 0 };
    const across = unit(cross(span.tangent, other));
    const aside = cross(span.tangent, across);
    return [span.start, span.end].map((centre) => ({ centre, across, aside }));
  }
  const turnRad = (span.angleDeg * Math.PI) / 180;
  const steps = Math.max(1, Math.ceil(turnRad / (2 * halfStepRad(span.clrMm + radiusMm))));
  const aside = binormalOf({ point: span.start, tangent: span.tangent, normal: span.normal });
  return Array.from({ length: steps + 1 }, (_, step) => {
    const centre = pointAt(span, step / steps);
    return { centre, across: unit(addScaled(span.centre, centre, -1)), aside };
  });
}

/** Sleeves of triangles, one a span. Straights take two rings; bends as many as the sag asks. */
export function tubeMesh(path: TubePath, odMm: number): THREE.BufferGeometry {
  const radiusMm = odMm / 2;
  const around = Math.ceil(Math.PI / halfStepRad(radiusMm));
  const positions: number[] = [];
  const indices: number[] = [];
  for (const span of path.spans) {
    if (span.lengthMm === 0) continue;
    ringsOf(span, radiusMm).forEach((ring, place) => {
      const first = positions.length / 3;
      for (let corner = 0; corner < around; corner += 1) {
        const turn = (2 * Math.PI * corner) / around;
        const half = addScaled(ring.centre, ring.across, radiusMm * Math.cos(turn));
        const point = addScaled(half, ring.aside, radiusMm * Math.sin(turn));
        positions.push(point.x, point.y, point.z);
        if (place === 0) continue;
        const next = (corner + 1) % around;
        const [a, b, c, d] = [first + corner, first + next, first + corner - around, first + next - around];
        indices.push(a, b, c, b, d, c);
      }
    });
  }
  const mesh = new THREE.BufferGeometry();
  mesh.setAttribute('position', new THREE.BufferAttribute(new Float64Array(positions), 3));
  mesh.setIndex(indices);
  return mesh;
}
