/** What no single value can show: ids that clash, references to nothing, circles, tubes and poses that cannot be. */

import { type Length, mmOf } from '../units/length.ts';
import type { Collector, Direction, Header, Inlet, Obstacle, Pose, Primary, Tube } from './header.ts';
import type { HeaderProblem, ProblemPath } from './header-problem.ts';

/** Everything in a header that other things point at. */
interface Directory {
  readonly primaries: ReadonlyMap<string, Primary>;
  readonly inlets: ReadonlyMap<string, Inlet>;
}

/** Directions closer than this are parallel for the purpose of telling what is up; radians, about a thousandth of a degree. */
const PARALLEL_RAD = 2e-5;

/**
 * Every way in which the parts of a header contradict each other, in document order; empty when none does.
 * The values themselves must have passed the schema. Linear in the size of the header.
 */
export function referenceProblems(header: Header): readonly HeaderProblem[] {
  const directory: Directory = {
    primaries: new Map(header.primaries.map((primary) => [primary.id, primary])),
    inlets: new Map(header.collectors.flatMap((collector) => collector.inlets.map((inlet) => [inlet.id, inlet]))),
  };
  return [
    ...idProblems(header),
    ...settingsProblems(header, directory),
    ...primaryProblems(header, directory),
    ...header.collectors.flatMap((collector, index) => collectorProblems(collector, index, directory)),
    ...header.obstacles.flatMap(obstacleProblems),
  ];
}

function idProblems(header: Header): readonly HeaderProblem[] {
  const problems: HeaderProblem[] = [];
  const seen = new Set<string>();
  const enter = (id: string, path: () => ProblemPath) => {
    if (seen.has(id)) problems.push({ kind: 'duplicateId', path: path(), id });
    seen.add(id);
  };
  header.primaries.forEach((primary, p) => {
    enter(primary.id, () => ['primaries', p, 'id']);
    primary.pieces.forEach((piece, i) => {
      enter(piece.id, () => ['primaries', p, 'pieces', i, 'id']);
    });
  });
  header.collectors.forEach((collector, c) => {
    enter(collector.id, () => ['collectors', c, 'id']);
    collector.inlets.forEach((inlet, i) => {
      enter(inlet.id, () => ['collectors', c, 'inlets', i, 'id']);
    });
  });
  header.obstacles.forEach((obstacle, o) => {
    enter(obstacle.id, () => ['obstacles', o, 'id']);
  });
  return problems;
}

function settingsProblems(header: Header, directory: Directory): readonly HeaderProblem[] {
  const { target, tube } = header.settings;
  const problems = tubeProblems(tube, ['settings', 'tube']);
  if (target.kind !== 'primary' || directory.primaries.has(target.primaryId)) return problems;
  return [
    ...problems,
    { kind: 'unknownId', path: ['settings', 'target', 'primaryId'], id: target.primaryId, what: 'primary' },
  ];
}

function tubeProblems(tube: Tube, path: ProblemPath): readonly HeaderProblem[] {
  if (mmOf(tube.wall) < mmOf(tube.od) / 2) return [];
  const found = lengthWords(tube.wall);
  return [
    {
      kind: 'invalidValue',
      path: [...path, 'wall'],
      expected: `less than half the OD of ${lengthWords(tube.od)}`,
      found,
    },
  ];
}

/** The values as they were typed: this is only ever shown beside the field that holds them. */
const lengthWords = (length: Length) => `${length.value} ${length.unit}`;

function primaryProblems(header: Header, directory: Directory): readonly HeaderProblem[] {
  const takenBy = new Map<string, string>();
  return header.primaries.flatMap((primary, index) => {
    const path = ['primaries', index];
    const problems: HeaderProblem[] = [];
    if (primary.tube) problems.push(...tubeProblems(primary.tube, [...path, 'tube']));
    if (primary.port) problems.push(...poseProblems(primary.port, [...path, 'port']));
    if (primary.inletId !== null) {
      problems.push(...inletChoiceProblems(primary, [...path, 'inletId'], { ...directory, takenBy }));
    }
    return problems;
  });
}

function inletChoiceProblems(
  primary: Primary,
  path: ProblemPath,
  context: Directory & { readonly takenBy: Map<string, string> },
): readonly HeaderProblem[] {
  const inletId = primary.inletId ?? '';
  if (!context.inlets.has(inletId)) return [{ kind: 'unknownId', path, id: inletId, what: 'inlet' }];
  const owner = context.takenBy.get(inletId);
  if (owner !== undefined) {
    return [
      {
        kind: 'invalidValue',
        path,
        expected: 'an inlet that no other primary takes',
        found: `the inlet of primary ${owner}`,
      },
    ];
  }
  context.takenBy.set(inletId, primary.name);
  if (!endsInItself(primary, context)) return [];
  const found = 'one that is placed, directly or by way of others, at the end of this primary itself';
  return [{ kind: 'invalidValue', path, expected: 'an inlet that is placed without this primary', found }];
}

/** Follows primary -> its inlet -> the primary whose end places that inlet, and so on, until it ends or comes round. */
function endsInItself(start: Primary, directory: Directory): boolean {
  const met = new Set<string>();
  let at: Primary | undefined = start;
  while (at && !met.has(at.id)) {
    met.add(at.id);
    const place: Inlet['place'] = directory.inlets.get(at.inletId ?? '')?.place ?? null;
    at = place?.kind === 'endOf' ? directory.primaries.get(place.primaryId) : undefined;
  }
  return at === start;
}

function collectorProblems(collector: Collector, index: number, directory: Directory): readonly HeaderProblem[] {
  return collector.inlets.flatMap((inlet, i): readonly HeaderProblem[] => {
    const path = ['collectors', index, 'inlets', i, 'place'];
    if (inlet.place === null) return [];
    if (inlet.place.kind === 'pose') return poseProblems(inlet.place.pose, [...path, 'pose']);
    const id = inlet.place.primaryId;
    return directory.primaries.has(id)
      ? []
      : [{ kind: 'unknownId', path: [...path, 'primaryId'], id, what: 'primary' }];
  });
}

/** Up and the direction of travel must span a plane, or clocking has nothing to be measured from. */
function poseProblems(pose: Pose, path: ProblemPath): readonly HeaderProblem[] {
  const sine = crossLength(pose.direction, pose.up) / (norm(pose.direction) * norm(pose.up));
  if (sine > PARALLEL_RAD) return [];
  const found = 'the line of travel itself';
  return [{ kind: 'invalidValue', path: [...path, 'up'], expected: 'a direction across the line of travel', found }];
}

const norm = (v: Direction) => Math.hypot(v.x, v.y, v.z);

const crossLength = (a: Direction, b: Direction) =>
  Math.hypot(a.y * b.z - a.z * b.y, a.z * b.x - a.x * b.z, a.x * b.y - a.y * b.x);

function obstacleProblems(obstacle: Obstacle, index: number): readonly HeaderProblem[] {
  if (obstacle.kind !== 'cylinder') return [];
  const { from, to } = obstacle;
  const isPoint = mmOf(from.x) === mmOf(to.x) && mmOf(from.y) === mmOf(to.y) && mmOf(from.z) === mmOf(to.z);
  if (!isPoint) return [];
  return [
    {
      kind: 'invalidValue',
      path: ['obstacles', index, 'to'],
      expected: 'a place other than where it begins',
      found: 'the same place',
    },
  ];
}
