/** How long the gaps between all primaries of a header take, and how that compares with a distance search on meshes. */

import { performance } from 'node:perf_hooks';
import * as THREE from 'three';
import { MeshBVH } from 'three-mesh-bvh';
import type { Header, Obstacle } from '../../core/header/header.ts';
import { newHeader } from '../../core/header/new-header.ts';
import { type Pose, type Primary, tracePrimary } from '../../core/index.ts';
import { bodyClearance, type TubeBody, tubeBody } from '../../core/path/clearance/clearance.ts';
import { headerClearances } from '../../core/path/clearance/header-clearances.ts';
import { distance, type Vector } from '../../core/path/vector.ts';
import { millimetres } from '../../core/units/length.ts';
import { seededRandom } from '../core/path/made-primaries.ts';
import { type Measure, quantile, type RunSize } from '../measure.ts';
import { calibrate } from './calibration.ts';
import { largeHeader } from './large-header.ts';
import { byClosedForm, bySearchAlongBoth, plainDistanceMm, plainPath } from './plain-distance.ts';
import { tubeMesh } from './tube-mesh.ts';

const OD_MM = 44.45;
const GOAL_MS = 5;
const GOAL_TIMES = 50;
const GOAL_ALL_MS = 15;
const GOAL_PLAIN_TIMES = 20;
const GOAL_CLOSED_TIMES = 1;
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

/** A box around everything, boxes and cylinders among and beside the tubes, planes under them: 20 in all. */
function obstacles(): readonly Obstacle[] {
  const random = seededRandom(5);
  const place = (x: number, y: number, z: number) => ({ x: millimetres(x), y: millimetres(y), z: millimetres(z) });
  const size = () => 20 + random() * 150;
  return Array.from({ length: 20 }, (_, index): Obstacle => {
    const named = { id: `obstacle-${index}`, name: String(index) };
    if (index === 0) {
      return { kind: 'box', ...named, corner: place(-3000, -3000, -3000), opposite: place(3000, 3000, 3000) };
    }
    const [x, y, z] = [random() * 900 - 100, random() * 900, random() * 700 - 350];
    const [from, to] = [place(x, y, z), place(x + size(), y + size(), z + size())];
    if (index % 4 === 3)
      return { kind: 'plane', ...named, at: place(0, 0, -300 - index), normal: { x: 0, y: 0, z: 1 } };
    if (index % 4 === 1) return { kind: 'box', ...named, corner: from, opposite: to };
    return { kind: 'cylinder', ...named, from, to, diameter: millimetres(20 + random() * 60) };
  });
}

/** From the header on: between tubes, of each with itself, and to every obstacle. */
function allGapsMs(large: Header, rounds: number): number {
  const primaries = large.primaries.map((primary, index) => ({ ...primary, port: portAt(index) }));
  const header = { ...large, primaries, obstacles: obstacles() };
  // 28 pairs, and 20 obstacles for each of 8 tubes.
  if (headerClearances(header).gaps.length < 28 + 160) throw new Error('Not every gap was measured');
  const samples = Array.from({ length: rounds + 20 }, () => timeMs(() => headerClearances(header)));
  return quantile(samples.slice(20), 0.5);
}

/** How many times longer plain searches take for all pairs, which must come to the same; the same work is counted in for both. */
function plainTimes(primaries: readonly Primary[], rounds: number): { readonly both: number; readonly closed: number } {
  const bodies = primaries.map(bodyOf);
  const methods = [bySearchAlongBoth, byClosedForm] as const;
  for (const method of methods) {
    for (const [one, other] of pairsOf(bodies)) {
      const ours = bodyClearance(one, other)?.centreDistanceMm ?? Number.NaN;
      const plain = plainDistanceMm(plainPath(one.path), plainPath(other.path), method);
      if (!(Math.abs(plain - ours) <= 1e-6)) throw new Error(`A plain search finds ${plain} mm and ours ${ours} mm`);
    }
  }
  const medianMs = (act: () => void) => quantile(Array.from({ length: rounds + 5 }, () => timeMs(act)).slice(5), 0.5);
  const oursMs = medianMs(() => {
    const made = bodies.map(({ path }) => tubeBody(path, OD_MM));
    for (const [one, other] of pairsOf(made)) bodyClearance(one, other);
  });
  const [both, closed] = methods.map((method) => {
    const plainMs = medianMs(() => {
      const made = bodies.map(({ path }) => plainPath(path));
      for (const [one, other] of pairsOf(made)) plainDistanceMm(one, other, method);
    });
    return plainMs / oursMs;
  }) as [number, number];
  return { both, closed };
}

export function measureClearance(size: RunSize): readonly Measure[] {
  const large = largeHeader(newHeader({ id: 'large', name: 'Eight by twenty' }));
  const { primaries } = large;
  const ms = allPairsMs(primaries, size === 'long' ? 200 : 40);
  const times = meshTimes(primaries.map(bodyOf), size === 'long' ? 5 : 1);
  const ratio = quantile(times, 0.5);
  const { factor, words } = calibrate();
  const allMs = allGapsMs(large, size === 'long' ? 100 : 30);
  const { both, closed } = plainTimes(primaries, size === 'long' ? 60 : 20);
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
      id: 'P3a',
      what: `times slower a mesh distance search (three-mesh-bvh) is at the same ${ACCURACY_MM} mm, ${times.length} pairs, median`,
      value: ratio,
      unit: 'x',
      goal: `>= ${GOAL_TIMES}`,
      ok: ratio >= GOAL_TIMES,
    },
    {
      id: 'P3b',
      what: 'times slower enclosing spheres, samples and golden section along both tubes are at the same 1e-6 mm, 28 pairs of 20 pieces',
      value: both,
      unit: 'x',
      goal: `>= ${GOAL_PLAIN_TIMES}`,
      ok: both >= GOAL_PLAIN_TIMES,
    },
    {
      id: 'P3d',
      what: 'the same with the nearest point of a line or arc in closed form, so that only one tube is searched along; it proves nothing',
      value: closed,
      unit: 'x',
      goal: `>= ${GOAL_CLOSED_TIMES}`,
      ok: closed >= GOAL_CLOSED_TIMES,
    },
    {
      id: 'P3c',
      what: `all gaps of 8 primaries of 20 pieces with 20 obstacles, from the header on, median (${words})`,
      value: allMs,
      unit: 'ms',
      goal: `< ${(GOAL_ALL_MS * factor).toFixed(1)}`,
      ok: allMs < GOAL_ALL_MS * factor,
    },
  ];
}
