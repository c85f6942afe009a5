/** Banks of four primaries into one collector, from a seed: ports in a row, a square of inlets below and to the back. */

import type { Header, Inlet, Pose, Primary } from '../../../core/header/header.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import { headerClearances } from '../../../core/path/clearance/header-clearances.ts';
import { inletPoses } from '../../../core/path/ends/port-row.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import { add, scale, unit, type Vector } from '../../../core/path/vector.ts';
import { inches, millimetres, mmOf } from '../../../core/units/length.ts';
import { bend, foundValue, poseAt, primaryOf, randomDirection, straight } from '../path/made-primaries.ts';
import { PROPOSE_SETTINGS } from './made-poses.ts';

const OD = inches(1.75);

function near(random: () => number, direction: Vector, spread: number): Vector {
  return unit(add(direction, scale(unit(randomDirection(random)), spread * random())));
}

/** An empty header: ports 90 to 115 mm apart that point outboard and a little down, the collector 280 to 480 mm below somewhere along the head. */
export function randomBank(random: () => number, count = 4): Header {
  const spacingMm = 90 + 25 * random();
  const out = near(random, { x: 0, y: 1, z: -0.2 }, 0.15);
  const along = -spacingMm * (count - 1) * random();
  const centre = { x: along, y: 110 + 130 * random(), z: -280 - 200 * random() };
  const down = near(random, { x: -0.4, y: 0, z: -0.9 }, 0.3);
  const primaries = Array.from({ length: count }, (_, i): Primary => {
    const port = poseAt({ x: -spacingMm * i, y: 0, z: 0 }, out, { x: 0, y: 0.3, z: 1 });
    return primaryOf([], { id: `p${i + 1}`, name: String(i + 1), port, inletId: `i${i + 1}` });
  });
  const poses = foundValue(
    inletPoses({
      pattern: 'square',
      count: 4,
      od: OD,
      gap: millimetres(2),
      centre: poseAt(centre, down, { x: 1, y: 0.1, z: 0 }),
    }),
  );
  const none = { deeper: millimetres(0), shallower: millimetres(0) };
  const inlets = poses
    .slice(0, count)
    .map((pose, i): Inlet => ({ id: `i${i + 1}`, name: String(i + 1), place: { kind: 'pose', pose }, slip: none }));
  return {
    ...newHeader({ id: 'bank', name: 'Bank' }),
    settings: { ...PROPOSE_SETTINGS, wantedGap: millimetres(6.35) },
    primaries,
    collectors: [{ id: 'collector', name: 'C', inlets }],
  };
}

/** Two such banks one behind the other, each into its own collector. */
export function bankOfEight(random: () => number): Header {
  const front = randomBank(random);
  const behind = randomBank(random);
  const moved = (pose: Pose): Pose => ({ ...pose, at: { ...pose.at, x: millimetres(mmOf(pose.at.x) - BEHIND_MM) } });
  const primaries = behind.primaries.map((primary) => ({
    ...primary,
    id: `b${primary.id}`,
    name: `b${primary.name}`,
    inletId: `b${primary.inletId}`,
    port: primary.port === null ? null : moved(primary.port),
  }));
  const collectors = behind.collectors.map((collector) => ({
    ...collector,
    id: `b${collector.id}`,
    inlets: collector.inlets.map((inlet): Inlet => {
      const { place } = inlet;
      const id = `b${inlet.id}`;
      return place?.kind === 'pose'
        ? { ...inlet, id, place: { kind: 'pose', pose: moved(place.pose) } }
        : { ...inlet, id };
    }),
  }));
  return {
    ...front,
    primaries: [...front.primaries, ...primaries],
    collectors: [...front.collectors, ...collectors],
  };
}

/** Behind the last port of the longest row in front, and its collector's reach. */
const BEHIND_MM = 700;

export interface ConstructedHeader {
  /** Empty, its inlets where tubes of one length ended that kept the gap. */
  readonly header: Header;
  readonly lengthMm: number;
  /** Of the tubes that it was made from. */
  readonly bends: number;
}

const LENGTH_MM = 620;
const CLRS_MM = [76.2, 101.6];

/** Two or three bends on half degrees, the last straight making up the length; null where that would be too short. */
function randomTube(random: () => number) {
  const bends = random() < 0.6 ? 2 : 3;
  let left = LENGTH_MM;
  const pieces = Array.from({ length: bends }, (_, i) => {
    const mm = 20 + 130 * random();
    const clrMm = CLRS_MM[Math.floor(random() * 2)] as number;
    const angleDeg = 15 + Math.round(150 * random()) / 2;
    left -= mm + (clrMm * angleDeg * Math.PI) / 180;
    return [straight(mm), bend(clrMm, angleDeg, i === 0 ? 100 + 160 * random() : Math.round(720 * random()) / 2 - 180)];
  }).flat();
  return left < 20 ? null : { pieces: [...pieces, straight(left)], bends };
}

/** Tubes that are drawn for one header before it is begun anew. */
const TRIES = 60;

/** A header of `count` primaries that is known to be feasible, since it was built tube by tube, each clear of those before. */
export function constructedHeader(random: () => number, count: number): ConstructedHeader {
  const settings = { ...PROPOSE_SETTINGS, wantedGap: millimetres(6.35) };
  let primaries: readonly Primary[] = [];
  let bends = 0;
  let tries = 0;
  while (primaries.length < count) {
    tries += 1;
    // Those before may leave no room: then it is begun anew.
    if (tries % TRIES === 0) [primaries, bends] = [[], 0];
    const tube = randomTube(random);
    if (tube === null) continue;
    const i = primaries.length;
    const port = poseAt({ x: -100 * i, y: 0, z: 0 }, { x: 0, y: 1, z: -0.2 }, { x: 0, y: 0.2, z: 1 });
    const pieces = tube.pieces.map((piece, at) => ({ ...piece, id: `p${i}-${at}` }));
    const next = [
      ...primaries,
      primaryOf(pieces, { id: `p${i + 1}`, name: String(i + 1), port, inletId: `i${i + 1}` }),
    ];
    const trial = { ...newHeader({ id: 'made', name: 'Made' }), settings, primaries: next };
    if (headerClearances(trial).tight.length > 0) continue;
    primaries = next;
    bends += tube.bends;
  }
  const none = { deeper: millimetres(0), shallower: millimetres(0) };
  const collectors = primaries.map((primary, i) => {
    const { point, tangent, normal } = foundValue(tracePrimary(primary, primary.port)).end;
    const pose = poseAt(point, tangent, normal);
    const inlet: Inlet = { id: `i${i + 1}`, name: String(i + 1), place: { kind: 'pose', pose }, slip: none };
    return { id: `c${i + 1}`, name: `C${i + 1}`, inlets: [inlet] };
  });
  const header = {
    ...newHeader({ id: 'made', name: 'Made' }),
    settings,
    primaries: primaries.map((primary) => ({ ...primary, pieces: [] })),
    collectors,
  };
  return { header, lengthMm: LENGTH_MM, bends };
}
