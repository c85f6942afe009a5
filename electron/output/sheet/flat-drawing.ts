/** Tubes seen flat: what is nearer covers what is behind it, and every tube has its label where nothing else is. */

import type { FlatPiece, FlatPoint, FlatTube } from '../../../core/index.ts';
import type { PageMark } from '../../bridge/page-messages.ts';
import { block, line, type Point, words } from '../pages/marks.ts';
import type { Typeface } from '../pages/typeface.ts';

export interface Bounds {
  readonly lowX: number;
  readonly highX: number;
  readonly lowY: number;
  readonly highY: number;
}

/** Of at least one point. */
export function boundsOf(points: readonly FlatPoint[]): Bounds {
  let [lowX, highX, lowY, highY] = [Infinity, -Infinity, Infinity, -Infinity];
  // Point by point: a long header has more points than a call may have arguments.
  for (const { xMm, yMm } of points) {
    [lowX, highX] = [Math.min(lowX, xMm), Math.max(highX, xMm)];
    [lowY, highY] = [Math.min(lowY, yMm), Math.max(highY, yMm)];
  }
  return { lowX, highX, lowY, highY };
}

/** Scales that a ruler can be held to; beyond the last its multiples. */
const SCALES = [1, 2, 2.5, 3, 4, 5, 6, 8, 10, 12, 15, 20, 25, 30, 40, 50];

/** The least of them that is no less than `needed`. */
export function neatScale(needed: number): number {
  return SCALES.find((scale) => scale >= needed - 1e-9) ?? 50 * Math.ceil(needed / 50);
}

export interface FlatPaper {
  readonly place: (point: FlatPoint) => Point;
  /** Millimetres of the header to one of paper. */
  readonly scale: number;
  readonly typeface: Typeface;
  readonly labelMm: number;
  /** Labels keep within these, mm from the left of the page. */
  readonly within: readonly [leftMm: number, rightMm: number];
}

const EDGE_MM = 0.3;

export function drawnTubes(
  { tubes, inlets = [] }: { readonly tubes: readonly FlatTube[]; readonly inlets?: readonly (readonly FlatPoint[])[] },
  paper: FlatPaper,
): readonly PageMark[] {
  const pieces = tubes
    .flatMap(({ odMm, pieces: list }) => list.map((piece) => ({ odMm, piece })))
    .toSorted((a, b) => a.piece.nearMm - b.piece.nearMm);
  return [
    ...inlets.map((ring) => line(ring.map(paper.place), { isClosed: true, dashMm: 0.8, widthMm: 0.25 })),
    ...pieces.flatMap(({ odMm, piece }) => drawnPiece(piece, odMm / paper.scale, paper)),
    ...placedLabels(tubes, paper),
  ];
}

function drawnPiece({ centreline, ends }: FlatPiece, odMm: number, { place }: FlatPaper): readonly PageMark[] {
  const points = centreline.map(place);
  const ring = (end: readonly FlatPoint[]) =>
    line(end.map(place), { isClosed: true, widthMm: EDGE_MM / 2, fill: 'white' });
  return [
    line(points, { widthMm: odMm + EDGE_MM }),
    ring(ends[0]),
    ring(ends[1]),
    line(points, { widthMm: Math.max(0.05, odMm - EDGE_MM), ink: 'white' }),
  ];
}

interface LabelBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/**
 * Each label on its own tube, where no other label is and none of its tube's ends and joints, whose lines it would cut through; where it has to, over one of
 * them, or over its middle.
 */
function placedLabels(tubes: readonly FlatTube[], paper: FlatPaper): readonly PageMark[] {
  const taken: LabelBox[] = [];
  const { labelMm, typeface } = paper;
  return tubes.flatMap(({ label, pieces }) => {
    const places = pieces.flatMap(({ centreline }) => midpoints(centreline.map(paper.place)));
    if (places.length === 0) return [];
    const width = typeface.widthMm(label, { sizeMm: labelMm, isBold: true }) + 1;
    const height = labelMm * 1.15;
    const boxes = places.map(([x, y]): LabelBox => {
      const left = Math.max(paper.within[0], Math.min(x - width / 2, paper.within[1] - width));
      return { x: left, y: y - height / 2, width, height };
    });
    const lines = pieces.flatMap(({ ends }) => ends.flatMap((end) => end.map(paper.place)));
    const uncut = boxes.filter((box) => !lines.some((point) => isWithin(point, box)));
    const asked = { label, paper };
    const box =
      roomiest(uncut, taken, tubes, asked) ??
      roomiest(boxes, taken, tubes, asked) ??
      boxes[Math.floor(boxes.length / 2)];
    if (box === undefined) return [];
    taken.push(box);
    return [
      block([box.x, box.y], [box.width, box.height], 'white'),
      words(label, [box.x + width / 2, box.y + height * 0.82], { sizeMm: labelMm, isBold: true, align: 'middle' }),
    ];
  });
}

/** The free box that is farthest from the other tubes. */
function roomiest(
  boxes: readonly LabelBox[],
  taken: readonly LabelBox[],
  tubes: readonly FlatTube[],
  { label, paper }: { readonly label: string; readonly paper: FlatPaper },
): LabelBox | null {
  const others = tubes
    .filter((tube) => tube.label !== label)
    .flatMap(({ pieces }) => pieces.flatMap(({ centreline }) => centreline.map(paper.place)));
  const free = boxes.filter((box) => !taken.some((other) => overlap(box, other)));
  const roomOf = ({ x, y, width, height }: LabelBox) =>
    Math.min(...others.map(([ox, oy]) => Math.hypot(ox - x - width / 2, oy - y - height / 2)), 1e6);
  let best: { readonly box: LabelBox; readonly room: number } | null = null;
  for (const box of free) {
    const room = roomOf(box);
    if (best === null || room > best.room + 1e-6) best = { box, room };
  }
  return best?.box ?? null;
}

/** Near enough counts: what is left of a line beside a letter reads like a part of it. */
const BESIDE_MM = 0.6;

function isWithin([x, y]: Point, box: LabelBox): boolean {
  return (
    x > box.x - BESIDE_MM &&
    x < box.x + box.width + BESIDE_MM &&
    y > box.y - BESIDE_MM &&
    y < box.y + box.height + BESIDE_MM
  );
}

function midpoints(points: readonly Point[]): readonly Point[] {
  return points.slice(1).flatMap(([x, y], at): readonly Point[] => {
    const before = points[at];
    return before === undefined ? [] : [[(before[0] + x) / 2, (before[1] + y) / 2]];
  });
}

function overlap(a: LabelBox, b: LabelBox): boolean {
  return a.x < b.x + b.width && b.x < a.x + a.width && a.y < b.y + b.height && b.y < a.y + a.height;
}
