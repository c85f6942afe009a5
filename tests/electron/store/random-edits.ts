/** Edits of every kind, made for the header that they are to change, from a few random numbers. */

import type { Edit, SingleEdit } from '../../../core/edits/edit.ts';
import type { Engine } from '../../../core/header/engine.ts';
import type { Collector, Header, Obstacle, Piece, Primary, Settings } from '../../../core/header/header.ts';
import type { Measurement } from '../../../core/header/measured.ts';

/** Numbers in [0, 1) to choose with, taken in order and over again. */
export type Draw = () => number;

export function drawFrom(numbers: readonly number[]): Draw {
  let at = 0;
  return () => numbers[at++ % numbers.length] ?? 0;
}

const pick = <Item>(items: readonly Item[], draw: Draw): Item | undefined => items[Math.floor(draw() * items.length)];
const place = (count: number, draw: Draw) => Math.floor(draw() * (count + 1));
const inch = (draw: Draw, least = 0) => ({ value: least + Math.floor(draw() * 160) / 16, unit: 'in' as const });
const millimetre = (draw: Draw) => ({ value: Math.round(draw() * 20_000) / 10, unit: 'mm' as const });
const point = (draw: Draw) => ({ x: millimetre(draw), y: inch(draw), z: millimetre(draw) });
const pose = (draw: Draw) => ({ at: point(draw), direction: { x: 1, y: 0, z: draw() }, up: { x: 0, y: 0, z: 1 } });

function piece(id: string, draw: Draw): Piece {
  const state = pick(['planned', 'cut', 'tacked', 'welded'] as const, draw) ?? 'tacked';
  const common = { id, state, locked: draw() > 0.5, note: pick(['', 'odd leg', 'Rohr Nº 3 – ünten'], draw) ?? '' };
  const bend = {
    clr: inch(draw, 1),
    angleDeg: 1 + draw() * 359,
    clockingDeg: draw() > 0.3 ? draw() * 360 - 180 : null,
  };
  const kind = pick(['straight', 'bend', 'pieCut'] as const, draw);
  if (kind === 'bend') return { kind, ...common, ...bend };
  if (kind === 'pieCut') return { kind, ...common, ...bend, pies: 1 + Math.floor(draw() * 8) };
  return { kind: 'straight', ...common, length: draw() > 0.5 ? inch(draw) : millimetre(draw) };
}

function primary(id: string, draw: Draw): Primary {
  const tube =
    draw() > 0.7 ? { material: 'mild steel', od: inch(draw, 1), wall: { value: 0.05, unit: 'in' as const } } : null;
  const pieces = Array.from({ length: Math.floor(draw() * 3) }, (_, index) => piece(`${id}-${index}`, draw));
  return { id, name: `Cyl ${id}`, tube, port: draw() > 0.6 ? pose(draw) : null, inletId: null, pieces };
}

function collector(id: string, header: Header, draw: Draw): Collector {
  const owner = pick(header.primaries, draw);
  const where = owner && draw() > 0.7 ? ({ kind: 'endOf', primaryId: owner.id } as const) : null;
  const slip = { deeper: inch(draw), shallower: inch(draw) };
  return { id, name: `Collector ${id}`, inlets: [{ id: `${id}-in`, name: 'A', place: where, slip }] };
}

function obstacle(id: string, draw: Draw): Obstacle {
  const kind = pick(['box', 'cylinder', 'plane'] as const, draw);
  if (kind === 'box') return { kind, id, name: 'Rail', corner: point(draw), opposite: point(draw) };
  if (kind === 'plane') return { kind, id, name: 'Wheel well', at: point(draw), normal: { x: 0, y: 1, z: draw() } };
  return { kind: 'cylinder', id, name: 'Shaft', from: point(draw), to: point(draw), diameter: inch(draw, 1) };
}

export const EDIT_KINDS = [
  'setHeader',
  'setSettings',
  'addPrimary',
  'removePrimary',
  'movePrimary',
  'setPrimary',
  'setMeasured',
  'setTolerances',
  'setEngine',
  'addPiece',
  'removePiece',
  'movePiece',
  'replacePiece',
  'addCollector',
  'removeCollector',
  'replaceCollector',
  'addObstacle',
  'removeObstacle',
  'replaceObstacle',
  'reopenHeader',
  'batch',
] as const satisfies readonly Edit['kind'][];
type Kind = (typeof EDIT_KINDS)[number];

/** An edit of the kind asked; where the header lacks what it is about, one that must be refused. `id` must be fresh. */
export function randomEdit(
  kind: Kind,
  header: Header,
  { id, draw }: { readonly id: string; readonly draw: Draw },
): Edit {
  if (kind !== 'batch') return singleEdit(kind, header, { id, draw });
  const kinds = ['setHeader', 'addPrimary', 'setSettings', 'addObstacle'] as const;
  const edits = kinds
    .slice(0, 1 + Math.floor(draw() * 4))
    .map((one, index) => singleEdit(one, header, { id: `${id}-${index}`, draw }));
  return { kind, label: 'several things', edits };
}

function singleEdit(
  kind: Exclude<Kind, 'batch'>,
  header: Header,
  { id, draw }: { id: string; draw: Draw },
): SingleEdit {
  const owner = pick(header.primaries, draw);
  const primaryId = owner?.id ?? 'none';
  const pieceId = pick(owner?.pieces ?? [], draw)?.id ?? 'none';
  const collectorId = pick(header.collectors, draw)?.id ?? 'none';
  const obstacleId = pick(header.obstacles, draw)?.id ?? 'none';
  switch (kind) {
    case 'setHeader':
      return { kind, set: draw() > 0.5 ? { note: `note ${draw()}` } : { name: `Name ${draw()}`, note: '' } };
    case 'setSettings':
      return { kind, set: settings(header, draw) };
    case 'addPrimary':
      return { kind, primary: primary(id, draw), at: place(header.primaries.length, draw) };
    case 'removePrimary':
      return { kind, primaryId };
    case 'movePrimary':
      return { kind, primaryId, to: place(header.primaries.length, draw) };
    case 'setPrimary':
      return {
        kind,
        primaryId,
        set: { name: `Cyl ${draw()}`, inletId: pick(header.collectors, draw)?.inlets[0]?.id ?? null },
      };
    case 'setMeasured':
      return { kind, primaryId, measured: measured(draw) };
    case 'setTolerances':
      return { kind, tolerances: draw() > 0.3 ? { angleDeg: draw(), clockingDeg: draw(), length: inch(draw) } : null };
    case 'setEngine':
      return { kind, engine: draw() > 0.3 ? engine(draw) : null };
    case 'addPiece':
      return { kind, primaryId, piece: piece(id, draw), at: place(owner?.pieces.length ?? 0, draw) };
    case 'removePiece':
      return { kind, primaryId, pieceId };
    case 'movePiece':
      return { kind, primaryId, pieceId, to: place(owner?.pieces.length ?? 0, draw) };
    case 'replacePiece':
      return { kind, primaryId, piece: piece(pieceId, draw) };
    case 'addCollector':
      return { kind, collector: collector(id, header, draw), at: place(header.collectors.length, draw) };
    case 'removeCollector':
      return { kind, collectorId };
    case 'replaceCollector':
      return { kind, collector: collector(collectorId, header, draw) };
    case 'addObstacle':
      return { kind, obstacle: obstacle(id, draw), at: place(header.obstacles.length, draw) };
    case 'removeObstacle':
      return { kind, obstacleId };
    case 'replaceObstacle':
      return { kind, obstacle: obstacle(obstacleId, draw) };
    case 'reopenHeader':
      return { kind };
  }
}

function measured(draw: Draw): readonly Measurement[] {
  const readings: readonly Measurement[] = [
    { kind: 'outsideTape', length: inch(draw, 1), within: inch(draw) },
    { kind: 'centreline', length: inch(draw, 1), within: millimetre(draw) },
    { kind: 'filling', volume: { value: 1 + draw() * 2000, unit: 'ml' }, within: { value: draw() * 20, unit: 'in3' } },
  ];
  return readings.filter(() => draw() > 0.4);
}

function engine(draw: Draw): Engine {
  const gasTemperature = { value: Math.round(draw() * 900), unit: 'C' as const };
  return {
    firingOrder: [1, 3, 4, 2],
    rpm: 1000 + Math.floor(draw() * 8000),
    gasTemperature,
    gamma: 1.3,
    molarMass: 28.6,
  };
}

function settings(header: Header, draw: Draw): Partial<Settings> {
  const primaryId = pick(header.primaries, draw)?.id;
  const choices: readonly Partial<Settings>[] = [
    { tolerance: { minus: inch(draw), plus: inch(draw) } },
    { display: { kind: 'mm', places: 1 } },
    { clr: inch(draw, 1), weldShrinkage: millimetre(draw) },
    { target: primaryId ? { kind: 'primary', primaryId } : { kind: 'mean' } },
  ];
  return pick(choices, draw) ?? {};
}
