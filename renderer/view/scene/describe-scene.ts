/** From a header to what there is to see of it in space. */

import {
  addScaled,
  assertNever,
  DEFAULT_PORT,
  describeProblem,
  type Frame,
  frameOfPose,
  type Header,
  type HeaderClearances,
  inletFrame,
  mmOf,
  type Obstacle,
  type PartialPath,
  type Primary,
  pointAt,
  traceAsFarAsKnown,
  traceFrom,
  tubeOf,
  unitDirection,
  vectorOfPlace,
} from '../../../core/index.ts';
import { bodyOutline } from './body-outline.ts';
import {
  type Bounds,
  boundsAbout,
  joinBounds,
  type Scene,
  type SceneBody,
  type SceneDial,
  type SceneMouth,
  type ScenePiece,
  type SceneReach,
  type SceneSelection,
  type SceneTube,
} from './scene.ts';
import { closureSpans, gapSpans } from './scene-spans.ts';

/** Unplaced primaries stand this many ODs apart. */
const UNPLACED_PITCH_ODS = 4;
/** Points looked at on each span for its bounds; the OD around them covers what lies between. */
const BOUND_SHARES = [0, 0.25, 0.5, 0.75, 1];

/**
 * All of a header that can be drawn. `clearances` null: not worked out yet, so no gaps are drawn. Tubes of primaries that have
 * not changed are the same objects as before, so that whoever draws them can tell.
 */
export function describeScene(
  header: Header,
  selection: SceneSelection,
  clearances: HeaderClearances | null = null,
): Scene {
  const { tubes, notes } = describeTubes(header);
  const mouths = [...portMouths(header), ...inletMouths(header)];
  const bodies = header.obstacles.flatMap(bodyOf);
  const reaches = [
    ...tubes.flatMap(tubeReaches),
    ...mouths.map(({ frame, odMm }) => ({ point: frame.point, reachMm: 0.75 * odMm })),
    ...bodies.flatMap(bodyReaches),
  ];
  const bounds = reaches
    .map(({ point, reachMm }) => boundsAbout(point, reachMm))
    .reduce<Bounds | null>(joinBounds, null);
  const style = header.settings.display;
  return {
    tubes,
    before: [],
    mouths,
    bodies,
    spans: [...gapSpans(clearances?.tight ?? [], header), ...closureSpans(header, style)],
    dial: dialOf(header, tubes, selection),
    selection,
    bounds,
    reaches,
    notes,
  };
}

/** The scene of a header after a move, with the tubes of `present` that the move changes beside it. */
export function withPresent(scene: Scene, present: Header): Scene {
  return { ...scene, before: describeTubes(present).tubes.filter((tube) => !scene.tubes.includes(tube)) };
}

interface TracedTube {
  readonly tube: SceneTube;
  readonly note: string | null;
}

/** Traced tubes by the primary that they are of: a primary that is the same object is the same tube. */
const traced = new WeakMap<Primary, { readonly key: string; readonly tube: TracedTube }>();

function describeTubes(header: Header): { tubes: readonly SceneTube[]; notes: readonly string[] } {
  const unplaced = header.primaries.filter(({ port, pieces }) => port === null && pieces.length > 0);
  const isPartlyPlaced = header.primaries.some(({ port }) => port !== null);
  const found = header.primaries.flatMap((primary): readonly TracedTube[] => {
    if (primary.pieces.length === 0) return [];
    const { od, wall } = tubeOf(header, primary);
    const [odMm, wallMm] = [mmOf(od), mmOf(wall)];
    const place = unplaced.indexOf(primary) + (isPartlyPlaced ? 1 : 0);
    const offsetMm = primary.port === null ? place * UNPLACED_PITCH_ODS * odMm : 0;
    const key = `${odMm} ${wallMm} ${offsetMm}`;
    const known = traced.get(primary);
    if (known?.key === key) return [known.tube];
    const tube = traceTube(primary, { odMm, wallMm }, offsetMm);
    if (tube === null) return [];
    traced.set(primary, { key, tube });
    return [tube];
  });
  const names = unplaced.map(({ name }) => name).join(', ');
  const notes = found.flatMap(({ note }) => note ?? []);
  return {
    tubes: found.map(({ tube }) => tube),
    notes:
      unplaced.length === 0 ? notes : [`No port yet: ${names}. Drawn side by side, not where they belong.`, ...notes],
  };
}

function traceTube(primary: Primary, size: Pick<SceneTube, 'odMm' | 'wallMm'>, offsetMm: number): TracedTube | null {
  const path = pathOf(primary, offsetMm);
  if (path === null) return null;
  const { joints, spans, end } = path.path;
  const start = joints[0] ?? end;
  const pieces = primary.pieces.slice(0, joints.length - 1).map(
    (piece, index): ScenePiece => ({
      pieceId: piece.id,
      spans: spans.filter((span) => span.pieceIndex === index),
      start: joints[index] ?? start,
      end: joints[index + 1] ?? end,
    }),
  );
  const tube = {
    primaryId: primary.id,
    name: primary.name,
    ...size,
    pieces,
    start,
    end,
    isPlaced: primary.port !== null,
  };
  return { tube, note: path.problem === null ? null : describeProblem(path.problem) };
}

function pathOf(primary: Primary, offsetMm: number): PartialPath | null {
  if (primary.port === null) {
    const start: Frame = { ...DEFAULT_PORT, point: { ...DEFAULT_PORT.point, x: DEFAULT_PORT.point.x - offsetMm } };
    return traceFrom(primary, start, true);
  }
  const path = traceAsFarAsKnown(primary, primary.port);
  return path.ok ? path.value : null;
}

function portMouths(header: Header): readonly SceneMouth[] {
  return header.primaries.flatMap((primary): readonly SceneMouth[] => {
    if (primary.port === null) return [];
    const frame = frameOfPose(primary.port);
    const odMm = mmOf(tubeOf(header, primary).od);
    return frame.ok ? [{ kind: 'port', id: primary.id, name: primary.name, frame: frame.value, odMm }] : [];
  });
}

function inletMouths(header: Header): readonly SceneMouth[] {
  return header.collectors.flatMap(({ inlets }) =>
    inlets.flatMap(({ id, name }): readonly SceneMouth[] => {
      const frame = inletFrame(header, id);
      const primary = header.primaries.find(({ inletId }) => inletId === id);
      const odMm = mmOf((primary === undefined ? header.settings.tube : tubeOf(header, primary)).od);
      return frame.ok ? [{ kind: 'inlet', id, name, frame: frame.value, odMm }] : [];
    }),
  );
}

/** Nothing for a body that is none: a cylinder without length, a plane without direction. */
function bodyOf(obstacle: Obstacle): readonly SceneBody[] {
  const { id, name } = obstacle;
  switch (obstacle.kind) {
    case 'box': {
      const [a, b] = [vectorOfPlace(obstacle.corner), vectorOfPlace(obstacle.opposite)];
      const low = { x: Math.min(a.x, b.x), y: Math.min(a.y, b.y), z: Math.min(a.z, b.z) };
      const high = { x: Math.max(a.x, b.x), y: Math.max(a.y, b.y), z: Math.max(a.z, b.z) };
      return [{ kind: 'box', id, name, low, high }];
    }
    case 'cylinder': {
      const [from, to] = [vectorOfPlace(obstacle.from), vectorOfPlace(obstacle.to)];
      return [{ kind: 'cylinder', id, name, from, to, radiusMm: mmOf(obstacle.diameter) / 2 }];
    }
    case 'plane': {
      const normal = unitDirection(obstacle.normal);
      return normal === null ? [] : [{ kind: 'plane', id, name, at: vectorOfPlace(obstacle.at), normal }];
    }
    default:
      return assertNever(obstacle);
  }
}

/** Kept by tube: the tubes of primaries that have not changed are not looked at again. */
const tubeReach = new WeakMap<SceneTube, readonly SceneReach[]>();

function tubeReaches(tube: SceneTube): readonly SceneReach[] {
  const known = tubeReach.get(tube);
  if (known !== undefined) return known;
  const reaches = tube.pieces.flatMap(({ spans }) =>
    spans.flatMap((span) => BOUND_SHARES.map((share) => ({ point: pointAt(span, share), reachMm: tube.odMm / 2 }))),
  );
  const withName = [...reaches, { point: namePoint(tube), reachMm: tube.odMm / 3 }];
  tubeReach.set(tube, withName);
  return withName;
}

/** A plane has no end, and does not count. */
function bodyReaches(body: SceneBody): readonly SceneReach[] {
  switch (body.kind) {
    case 'box':
      return bodyOutline(body, null)
        .flat()
        .map((point) => ({ point, reachMm: 0 }));
    case 'cylinder':
      return [body.from, body.to].map((point) => ({ point, reachMm: body.radiusMm }));
    case 'plane':
      return [];
    default:
      return assertNever(body);
  }
}

function dialOf(header: Header, tubes: readonly SceneTube[], selection: SceneSelection): SceneDial | null {
  const primary = header.primaries.find(({ id }) => id === selection.primaryId);
  const index = primary?.pieces.findIndex(({ id }) => id === selection.pieceId) ?? -1;
  const piece = primary?.pieces[index];
  const tube = tubes.find(({ primaryId }) => primaryId === primary?.id);
  const frame = index === 0 ? tube?.start : tube?.pieces[index - 1]?.end;
  if (piece === undefined || piece.kind === 'straight' || tube === undefined || frame === undefined) return null;
  return { frame, clockingDeg: piece.clockingDeg ?? 0, odMm: tube.odMm };
}

/** Where a primary's number stands: just outside the port, on the line of its axis. */
export function namePoint({ start, odMm }: SceneTube) {
  return addScaled(start.point, start.tangent, -1.1 * odMm);
}
