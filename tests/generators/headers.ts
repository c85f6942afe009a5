/** Headers and edits for tests: random ones that are valid by construction, and one of any size. */

import fc from 'fast-check';
import type { Engine, TunedSource } from '../../core/header/engine.ts';
import type {
  Bend,
  Collector,
  Direction,
  Header,
  Inlet,
  InletPlace,
  Obstacle,
  Piece,
  Place,
  Pose,
  Primary,
  Settings,
  Target,
  Tube,
} from '../../core/header/header.ts';
import type { Measurement, ShopTolerances } from '../../core/header/measured.ts';
import { newHeader } from '../../core/header/new-header.ts';
import { nameSchema, textSchema } from '../../core/header/schema.ts';
import { inches, type Length } from '../../core/units/length.ts';
import type { LengthStyle } from '../../core/units/length-style.ts';

const lengthUnits = fc.constantFrom('in' as const, 'mm' as const);
const sixtyFourths = (low: number, high: number) =>
  fc.integer({ min: Math.ceil(low * 64), max: Math.floor(high * 64) }).map((parts) => inches(parts / 64));

/** Values of 1e-40 and less need more digits than a typed number may have; nobody means them. */
const withoutDust = (value: number) => (Math.abs(value) < 1e-30 ? 0 : value);

function lengths(low: number, high: number): fc.Arbitrary<Length> {
  const decimals = fc.record({ value: fc.double({ min: low, max: high, noNaN: true }), unit: lengthUnits });
  return fc.oneof(sixtyFourths(low, high), decimals).map(({ value, unit }) => ({ value: withoutDust(value), unit }));
}

/** Zero or more. */
export const lengthArbitrary = lengths(0, 60);
/** Above zero. */
export const positiveLengthArbitrary = lengths(0.01, 40);
const coordinateArbitrary = lengths(-100, 100);

/** Text that the schema takes, in the form that it gives it. */
export const nameArbitrary = fc.oneof(
  fc.constantFrom('1', '2', 'Cylinder 3', 'left rear', '4-into-1'),
  fc
    .string({ unit: 'grapheme', maxLength: 12 })
    .filter((text) => nameSchema.safeParse(text).success)
    .map((text) => nameSchema.parse(text)),
);
export const noteArbitrary = fc
  .oneof(
    fc.constant(''),
    fc.string({ unit: 'grapheme', maxLength: 30 }),
    fc.constant('checked\n3 5/8" to the rail, "snug"\tok'),
  )
  .filter((text) => textSchema.safeParse(text).success)
  .map((text) => textSchema.parse(text));

export const angleArbitrary = fc.oneof(
  fc.constantFrom(15, 22.5, 30, 45, 60, 75, 90, 120, 180, 360),
  fc.double({ min: 0.001, max: 360, noNaN: true }),
);
export const clockingArbitrary = fc.oneof(
  fc.constantFrom(null, 0, 45, -45, 90, 180, -360, 360),
  fc.double({ min: -360, max: 360, noNaN: true }).map(withoutDust),
);

const bendFields = { clr: positiveLengthArbitrary, angleDeg: angleArbitrary, clockingDeg: clockingArbitrary };

/** A piece with the id "unset", which the maker of the header replaces. */
export function pieceArbitrary(id = 'unset'): fc.Arbitrary<Piece> {
  const common = {
    id: fc.constant(id),
    state: fc.constantFrom('planned' as const, 'cut' as const, 'tacked' as const, 'welded' as const),
    locked: fc.boolean(),
    note: noteArbitrary,
  };
  return fc.oneof(
    fc.record({ kind: fc.constant('straight' as const), ...common, length: lengthArbitrary }),
    fc.record({ kind: fc.constant('bend' as const), ...common, ...bendFields }),
    fc
      .record({ kind: fc.constant('pieCut' as const), ...common, ...bendFields, pies: fc.integer({ min: 1, max: 90 }) })
      .map((bend) => ({ ...bend, pies: Math.max(bend.pies, Math.ceil(bend.angleDeg / 90)) })),
  );
}

export const tubeArbitrary: fc.Arbitrary<Tube> = fc
  .record({
    material: nameArbitrary,
    od: lengths(1, 4),
    wall: lengths(0.01, 0.4).map(({ value, unit }) => ({ value: Math.min(value, 0.4), unit })),
  })
  .map((tube) => (tube.wall.unit === tube.od.unit ? tube : { ...tube, wall: { ...tube.wall, unit: tube.od.unit } }));

const AXES: readonly Direction[] = [
  { x: 1, y: 0, z: 0 },
  { x: 0, y: -2, z: 0 },
  { x: 0, y: 0, z: 0.5 },
];
const placeArbitrary: fc.Arbitrary<Place> = fc.record({
  x: coordinateArbitrary,
  y: coordinateArbitrary,
  z: coordinateArbitrary,
});

/** Direction and up are two different axes, so that they are never parallel. */
export const poseArbitrary: fc.Arbitrary<Pose> = fc
  .record({ at: placeArbitrary, turn: fc.integer({ min: 0, max: 2 }), step: fc.integer({ min: 1, max: 2 }) })
  .map(({ at, turn, step }) => ({
    at,
    direction: AXES[turn] as Direction,
    up: AXES[(turn + step) % 3] as Direction,
  }));

function obstacleArbitrary(id: string): fc.Arbitrary<Obstacle> {
  const common = { id: fc.constant(id), name: nameArbitrary };
  return fc.oneof(
    fc.record({ kind: fc.constant('box' as const), ...common, corner: placeArbitrary, opposite: placeArbitrary }),
    fc
      .record({
        kind: fc.constant('cylinder' as const),
        ...common,
        from: placeArbitrary,
        diameter: positiveLengthArbitrary,
      })
      .map((body) => ({ ...body, to: { ...body.from, z: { ...body.from.z, value: body.from.z.value + 10 } } })),
    fc.record({
      kind: fc.constant('plane' as const),
      ...common,
      at: placeArbitrary,
      normal: fc.constantFrom(...AXES),
    }),
  );
}

export const displayArbitrary: fc.Arbitrary<LengthStyle> = fc.oneof(
  fc.record({
    kind: fc.constant('fraction' as const),
    per: fc.constantFrom(8 as const, 16 as const, 32 as const, 64 as const),
  }),
  fc.record({ kind: fc.constant('decimalInch' as const), places: fc.constantFrom(2 as const, 3 as const, 4 as const) }),
  fc.record({ kind: fc.constant('mm' as const), places: fc.constantFrom(0 as const, 1 as const, 2 as const) }),
);

const volumeUnits = fc.constantFrom('ml' as const, 'in3' as const);
const volumeArbitrary = fc.record({ value: fc.double({ min: 0.01, max: 5000, noNaN: true }), unit: volumeUnits });

const inputsArbitrary = fc.record({
  rpm: fc.integer({ min: 500, max: 20_000 }),
  openingDeg: fc.integer({ min: 0, max: 120 }),
  travelDeg: fc.integer({ min: 1, max: 720 }),
  order: fc.integer({ min: 1, max: 9 }),
  soundMs: fc.double({ min: 300, max: 900, noNaN: true }),
  port: lengthArbitrary,
  cylinder: volumeArbitrary,
});

const tunedArbitrary: fc.Arbitrary<TunedSource> = fc.record({
  formula: fc.constantFrom('valveTiming' as const, 'twoStage' as const, 'waveTravel' as const, 'quarterWave' as const),
  inputs: inputsArbitrary,
});

const readings: readonly fc.Arbitrary<Measurement>[] = [
  ...(['outsideTape', 'centreline'] as const).map((kind) =>
    fc.record({ kind: fc.constant(kind), length: positiveLengthArbitrary, within: lengthArbitrary }),
  ),
  fc.record({ kind: fc.constant('filling' as const), volume: volumeArbitrary, within: volumeArbitrary }),
];

/** Up to one reading a method, in any order. */
export const measuredArbitrary: fc.Arbitrary<readonly Measurement[]> = fc
  .shuffledSubarray([0, 1, 2])
  .chain((methods) => fc.tuple(...methods.map((method) => readings[method] as fc.Arbitrary<Measurement>)));

export const tolerancesArbitrary: fc.Arbitrary<ShopTolerances> = fc.record({
  angleDeg: fc.double({ min: 0, max: 45, noNaN: true }).map(withoutDust),
  clockingDeg: fc.double({ min: 0, max: 180, noNaN: true }).map(withoutDust),
  length: lengthArbitrary,
});

/** Some fire evenly, others at any whole degrees. */
const firingArbitrary: fc.Arbitrary<Pick<Engine, 'firingOrder' | 'firingIntervalsDeg'>> = fc
  .integer({ min: 1, max: 12 })
  .chain((count) => {
    const cylinders = Array.from({ length: count }, (_, index) => index + 1);
    const places = fc.array(fc.integer({ min: 0, max: 720 }), { minLength: count - 1, maxLength: count - 1 });
    return fc.record(
      {
        firingOrder: fc.shuffledSubarray(cylinders, { minLength: count }),
        firingIntervalsDeg: places.map((list) => {
          const ends = [...list.toSorted((a, b) => a - b), 720];
          return ends.map((end, at) => end - (ends[at - 1] ?? 0));
        }),
      },
      { requiredKeys: ['firingOrder'] },
    );
  });

const gasArbitrary: fc.Arbitrary<Omit<Engine, 'firingOrder' | 'firingIntervalsDeg'>> = fc.record({
  rpm: fc.integer({ min: 500, max: 20_000 }),
  gasTemperature: fc.record({ value: fc.integer({ min: 1, max: 1200 }), unit: fc.constantFrom('C', 'F', 'K') }),
  gamma: fc.double({ min: 1.1, max: 1.67, noNaN: true }),
  molarMass: fc.double({ min: 2, max: 60, noNaN: true }),
});

export const engineArbitrary: fc.Arbitrary<Engine> = fc
  .tuple(firingArbitrary, gasArbitrary)
  .map(([firing, gas]) => ({ ...firing, ...gas }));

function targetArbitrary(primaryIds: readonly string[]): fc.Arbitrary<Target> {
  const common: fc.Arbitrary<Target>[] = [
    fc.constant({ kind: 'longest' as const }),
    fc.constant({ kind: 'mean' as const }),
    fc.record(
      { kind: fc.constant('typed' as const), length: positiveLengthArbitrary, tuned: tunedArbitrary },
      { requiredKeys: ['kind', 'length'] },
    ),
  ];
  if (primaryIds.length === 0) return fc.oneof(...common);
  return fc.oneof(
    ...common,
    fc.record({ kind: fc.constant('primary' as const), primaryId: fc.constantFrom(...primaryIds) }),
  );
}

export function settingsArbitrary(primaryIds: readonly string[]): fc.Arbitrary<Settings> {
  return fc.record({
    target: targetArbitrary(primaryIds),
    tolerance: fc.record({ minus: lengthArbitrary, plus: lengthArbitrary }),
    display: displayArbitrary,
    tube: tubeArbitrary,
    clr: positiveLengthArbitrary,
    weldShrinkage: lengthArbitrary,
    shortestStraight: lengthArbitrary,
    closure: fc.record({ gap: lengthArbitrary, tiltDeg: fc.double({ min: 0.001, max: 180, noNaN: true }) }),
    wantedGap: lengthArbitrary,
  });
}

const slipArbitrary = fc.record({ deeper: lengthArbitrary, shallower: lengthArbitrary });

function inletArbitrary(id: string, place: fc.Arbitrary<InletPlace | null>): fc.Arbitrary<Inlet> {
  return fc.record({ id: fc.constant(id), name: nameArbitrary, place, slip: slipArbitrary });
}

const measuredPlace: fc.Arbitrary<InletPlace | null> = fc.option(
  fc.record({ kind: fc.constant('pose' as const), pose: poseArbitrary }),
);

/** A collector whose inlets are measured or not, but not placed by another primary. */
export function collectorArbitrary(id: string, inletCount = 3): fc.Arbitrary<Collector> {
  const inlets = Array.from({ length: inletCount }, (_, index) => inletArbitrary(`${id}-i${index}`, measuredPlace));
  return fc.record({ id: fc.constant(id), name: nameArbitrary, inlets: fc.tuple(...inlets) });
}

export function primaryArbitrary(id: string, inletId: string | null = null, most = 8): fc.Arbitrary<Primary> {
  return fc.record(
    {
      id: fc.constant(id),
      name: nameArbitrary,
      tube: fc.option(tubeArbitrary),
      port: fc.option(poseArbitrary),
      inletId: fc.constant(inletId),
      pieces: fc
        .array(pieceArbitrary(), { maxLength: most })
        .map((pieces) => pieces.map((piece, index) => ({ ...piece, id: `${id}-${index}` }))),
      measured: measuredArbitrary.filter((list) => list.length > 0),
    },
    { requiredKeys: ['id', 'name', 'tube', 'port', 'inletId', 'pieces'] },
  );
}

/** Primary n ends in inlet n of the collector where there is one; inlet n+1 may be placed where primary n ends. */
function connectedCollector(primaryIds: readonly string[]): fc.Arbitrary<Collector> {
  const inlets = primaryIds.map((_, index) => {
    const before = primaryIds[index - 1];
    const place =
      before === undefined
        ? measuredPlace
        : fc.oneof(measuredPlace, fc.constant({ kind: 'endOf' as const, primaryId: before }));
    return inletArbitrary(`c0-i${index}`, place);
  });
  return fc.record({ id: fc.constant('c0'), name: nameArbitrary, inlets: fc.tuple(...inlets) });
}

/** Any valid header with up to `most` primaries of up to 8 pieces, open or finished. */
export function headerArbitrary(most = 4): fc.Arbitrary<Header> {
  return fc
    .record({ primaryCount: fc.integer({ min: 0, max: most }), hasCollector: fc.boolean(), obstacleCount: fc.nat(2) })
    .chain(({ primaryCount, hasCollector, obstacleCount }) => {
      const ids = Array.from({ length: primaryCount }, (_, index) => `p${index}`);
      return fc.record(
        {
          id: fc.constant('header'),
          name: nameArbitrary,
          note: noteArbitrary,
          state: fc.oneof({ weight: 9, arbitrary: fc.constant('open' as const) }, fc.constant('finished' as const)),
          settings: settingsArbitrary(ids),
          primaries: fc.tuple(...ids.map((id, index) => primaryArbitrary(id, hasCollector ? `c0-i${index}` : null))),
          collectors: hasCollector ? fc.tuple(connectedCollector(ids), collectorArbitrary('c1')) : fc.constant([]),
          obstacles: fc.tuple(...Array.from({ length: obstacleCount }, (_, index) => obstacleArbitrary(`o${index}`))),
          tolerances: tolerancesArbitrary,
          engine: engineArbitrary,
        },
        { requiredKeys: ['id', 'name', 'note', 'state', 'settings', 'primaries', 'collectors', 'obstacles'] },
      );
    });
}

export { obstacleArbitrary };

/** A header of any size with the same figures every time: straights and 3 in CLR bends by turns. */
export function bigHeader(primaryCount: number, pieceCount: number): Header {
  const primaries = Array.from({ length: primaryCount }, (_, p): Primary => {
    const pieces = Array.from({ length: pieceCount }, (_unused, i) => bigPiece(p, i));
    return { id: `p${p}`, name: String(p + 1), tube: null, port: null, inletId: null, pieces };
  });
  return { ...newHeader({ id: 'big', name: 'Big header' }), primaries };
}

function bigPiece(p: number, i: number): Piece {
  const common = { id: `p${p}-${i}`, state: 'tacked' as const, locked: false, note: '' };
  if (i % 2 === 0) return { kind: 'straight', ...common, length: inches(1 + ((p * 7 + i * 5) % 16) / 16) };
  const bend: Bend = {
    kind: 'bend',
    ...common,
    clr: inches(3),
    angleDeg: 15 + 15 * ((p + i) % 5),
    clockingDeg: (p * 30 + i * 45) % 360,
  };
  return bend;
}
