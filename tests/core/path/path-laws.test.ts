/** Laws that every path keeps, on random primaries. */

import { describe, test } from 'vitest';
import type { Piece } from '../../../core/header/header.ts';
import { primaryLength } from '../../../core/length/piece-length.ts';
import { clockBy, type Frame } from '../../../core/path/frame.ts';
import { pathLengthMm, pointAt, traceFrom, tracePrimary } from '../../../core/path/trace-primary.ts';
import { add, dot, magnitude, turnAbout, unit } from '../../../core/path/vector.ts';
import { expectWithin } from '../../tolerance.ts';
import { foundValue, randomDirection, randomPrimary, seededRandom, UP_Z } from './made-primaries.ts';
import { expectVector } from './vector-tolerance.ts';

const ORIGIN = { x: 0, y: 0, z: 0 };
const X = { x: 1, y: 0, z: 0 };

describe('laws on random primaries (seed 20)', () => {
  const random = seededRandom(20);
  const primaries = Array.from({ length: 300 }, () => randomPrimary({ pieces: 1 + Math.floor(random() * 20), random }));

  test("the path is as long as the primary's pieces", () => {
    for (const primary of primaries) {
      const path = foundValue(tracePrimary(primary, primary.port));
      const lengthMm = primaryLength(primary, { shrinkageMm: 0 });
      expectWithin(pathLengthMm(path), lengthMm, 1e-9 * Math.max(1, lengthMm));
    }
  });

  test('spans follow each other without a step, and every frame is square and of length 1', () => {
    for (const primary of primaries) {
      const { spans, joints } = foundValue(tracePrimary(primary, primary.port));
      for (const [index, span] of spans.entries()) {
        expectVector(pointAt(span, 1), span.end, 1e-9);
        expectVector(span.start, spans[index - 1]?.end ?? span.start, 1e-9);
      }
      for (const { tangent, normal } of joints) {
        expectWithin(magnitude(tangent), 1, 1e-14);
        expectWithin(magnitude(normal), 1, 1e-14);
        expectWithin(dot(tangent, normal), 0, 1e-13);
      }
    }
  });

  test('turning and moving the port carries the whole path along', () => {
    for (const primary of primaries) {
      const start = foundValue(tracePrimary({ ...primary, pieces: [] }, primary.port)).end;
      const [axis, turn, shift] = [unit(randomDirection(random)), random() * 6, randomDirection(random)];
      const moved = (frame: Frame): Frame => ({
        point: add(turnAbout(axis, frame.point, turn), shift),
        tangent: turnAbout(axis, frame.tangent, turn),
        normal: turnAbout(axis, frame.normal, turn),
      });
      const there = traceFrom(primary, moved(start)).path.end;
      const carried = moved(traceFrom(primary, start).path.end);
      expectVector(there.point, carried.point, 1e-9);
      expectVector(there.tangent, carried.tangent, 1e-12);
      expectVector(there.normal, carried.normal, 1e-12);
    }
  });

  test('a path a million times smaller or larger ends in the same place to scale', () => {
    for (const primary of primaries.slice(0, 50)) {
      const start = { point: ORIGIN, tangent: X, normal: UP_Z };
      const end = traceFrom(primary, start).path.end;
      for (const scale of [1e-6, 1e6]) {
        const sized = primary.pieces.map((piece): Piece => {
          const sizedLength = (length: { value: number; unit: 'in' | 'mm' }) => ({
            ...length,
            value: length.value * scale,
          });
          return piece.kind === 'straight'
            ? { ...piece, length: sizedLength(piece.length) }
            : { ...piece, clr: sizedLength(piece.clr) };
        });
        const { point } = traceFrom({ ...primary, pieces: sized }, start).path.end;
        expectVector(point, { x: end.point.x * scale, y: end.point.y * scale, z: end.point.z * scale }, 1e-9 * scale);
      }
    }
  });

  test('clocking the port is the same as clocking the first bend', () => {
    for (const primary of primaries.slice(0, 100)) {
      const start = { point: ORIGIN, tangent: X, normal: UP_Z };
      const turned = traceFrom(primary, clockBy(start, 33)).path.end;
      let isFirst = true;
      const pieces = primary.pieces.map((piece) => {
        if (piece.kind === 'straight' || !isFirst) return piece;
        isFirst = false;
        return { ...piece, clockingDeg: (piece.clockingDeg ?? 0) + 33 };
      });
      expectVector(traceFrom({ ...primary, pieces }, start).path.end.point, turned.point, 1e-9);
    }
  });
});
