/** How long the gaps between all primaries of a header take, and how that compares with a distance search on meshes. */

import { performance } from 'node:perf_hooks';
import * as THREE from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import { newHeader } from '../../core/header/new-header.ts';
import { type Pose, type Primary, tracePrimary } from '../../core/index.ts';
import { bodyClearance, type TubeBody, tubeBody } from '../../core/path/clearance/clearance.ts';
import { distance, type Vector } from '../../core/path/vector.ts';
import { millimetres } from '../../core/units/length.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { largeHeader } from './large-header.ts';
import { tubeMesh } from './tube-mesh.ts';

const OD_MM = 44.45;
const GOAL_MS = 5;
const GOAL_TIMES = 50;
/** Both answers are good to this, so they may differ by no more. */
const ACCURACY_MM = 0.01;
/** A mesh search says nothing of how deep two tubes cut into each other. */
const LEAST_GAP_MM = 1;

function portAt(index: number): Pose {
  const zero = millimetres(0);
  return {
    at: { x: millimetres(index * 95), y: zero, z: zero },
    direction: { x: 0, y: 1, z: 0 },
    up: { x: 0, y: 0, z: 1 },
  };
}

function bodyOf(primary: Primary, index: number): TubeBody {
  const path = tracePrimary(primary, portAt(index));
  if (!path.ok) throw new Error(`The header that speed is measured on has no path: ${JSON.stringify(path.problems)}`);
  return tubeBody(path.value, OD_MM);
}

const pairsOf = <Item>(items: readonly Item[]) =>
  items.flatMap((one, index) => items.slice(index + 1).map((other) => [one, other] as const));

function timeMs(work: () => void): number {
  const startMs = performance.now();
  work();
  return performance.now() - startMs;
}

/** Cutting the paths up is counted in; the first calls, in which the code is compiled, are not. */
function allPairsMs(primaries: readonly Primary[], rounds: number): number {
  const samples = Array.from({ length: rounds + 20 }, () =>
    timeMs(() => {
      for (const [one, other] of pairsOf(primaries.map(bodyOf))) bodyClearance(one, other);
    }),
  );
  return quantile(samples.slice(20), 0.5);
}

/** Ends count as round for us and are cut square in a mesh: pairs that come nearest at an end are no comparison. */
function isComparable(one: TubeBody, other: TubeBody): boolean {
  const clearance = bodyClearance(one, other);
  if (clearance === null || clearance.gapMm <= LEAST_GAP_MM) return false;
  const isAtEnd = ({ path }: TubeBody, point: Vector) =>
    [path.joints[0], path.end].some((frame) => frame !== undefined && distance(frame.point, point) < OD_MM / 2);
  return !isAtEnd(one, clearance.centreA) && !isAtEnd(other, clearance.centreB);
}

/** Distances by meshes whose facets err by no more than ours may; making the meshes and their trees is not counted. */
function meshTimes(bodies: readonly TubeBody[], pairCount: number): readonly number[] {
  const apart = pairsOf(bodies).filter(([one, other]) => isComparable(one, other));
  const here = new THREE.Matrix4();
  if (apart.length < pairCount) throw new Error(`Only ${apart.length} pairs can be compared with meshes`);
  return apart.slice(0, pairCount).map(([one, other]) => {
    const [meshA, meshB] = [tubeMesh(one.path, OD_MM), tubeMesh(other.path, OD_MM)];
    const tree = new MeshBVH(meshA);
    meshB.boundsTree = new MeshBVH(meshB);
    let foundMm = Number.NaN;
    const meshMs = timeMs(() => {
      foundMm = tree.closestPointToGeometry(meshB, here)?.distance ?? Number.NaN;
    });
    const ours = bodyClearance(one, other)?.gapMm ?? Number.NaN;
    if (!(Math.abs(foundMm - ours) <= ACCURACY_MM + 1e-6)) {
      throw new Error(`The meshes are ${foundMm} mm apart and the tubes ${ours} mm: not the same accuracy`);
    }
    const oursMs = quantile(
      Array.from({ length: 50 }, () => timeMs(() => bodyClearance(one, other))),
      0.5,
    );
    return meshMs / oursMs;
  });
}

export function measureClearance(size: RunSize): readonly Measure[] {
  const { primaries } = largeHeader(newHeader({ id: 'large', name: 'Eight by twenty' }));
  const ms = allPairsMs(primaries, size === 'long' ? 200 : 40);
  const times = meshTimes(primaries.map(bodyOf), size === 'long' ? 5 : 1);
  const ratio = quantile(times, 0.5);
  return [
    {
      id: 'P3',
      what: 'gaps of all 28 pairs of 8 primaries of 20 pieces, from the pieces on, median',
      value: ms,
      unit: 'ms',
      goal: `< ${GOAL_MS}`,
      ok: ms < GOAL_MS,
    },
    {
      id: 'P3b',
      what: `times slower a mesh distance search (three-mesh-bvh) is at the same ${ACCURACY_MM} mm, ${times.length} pairs, median`,
      value: ratio,
      unit: 'x',
      goal: `>= ${GOAL_TIMES}`,
      ok: ratio >= GOAL_TIMES,
    },
  ];
}
