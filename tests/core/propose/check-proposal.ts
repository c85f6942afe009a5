/** Looks a proposal over by means of its own: traced with matrices, measured by hand, against the header that it was made for. */

import { expect } from 'vitest';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import type { Header, Primary } from '../../../core/header/header.ts';
import { closureOf } from '../../../core/path/ends/closure.ts';
import { inletFrame } from '../../../core/path/ends/inlet-pose.ts';
import { tracePrimary } from '../../../core/path/trace-primary.ts';
import type { ProposedPrimary } from '../../../core/propose/outcome.ts';
import { mmOf } from '../../../core/units/length.ts';
import { expectWithin } from '../../tolerance.ts';
import { foundValue } from '../path/made-primaries.ts';

/** The header after the proposal, which must be what it says. */
export function expectSound(header: Header, proposal: ProposedPrimary): Header {
  const after = foundValue(applyEdit(header, proposal.edit)).header;
  const made = after.primaries.find(({ id }) => id === proposal.primaryId) as Primary;
  expect(made.pieces.slice(proposal.keptPieces)).toEqual(proposal.pieces);
  const before = header.primaries.find(({ id }) => id === proposal.primaryId) as Primary;
  expect(made.pieces.slice(0, proposal.keptPieces)).toEqual(before.pieces.slice(0, proposal.keptPieces));
  const closure = closureOf(
    foundValue(tracePrimary(made, made.port)).end,
    foundValue(inletFrame(after, made.inletId ?? '')),
  );
  const { gap, tiltDeg } = header.settings.closure;
  const slipMm = slipOf(header, made);
  expect(Math.hypot(closure.asideMm, Math.max(0, Math.abs(closure.alongMm) - slipMm))).toBeLessThanOrEqual(mmOf(gap));
  expect(closure.tiltDeg).toBeLessThanOrEqual(tiltDeg);
  for (const piece of proposal.pieces) {
    if (piece.kind !== 'straight') expect(piece.angleDeg).toBeLessThanOrEqual(180);
  }
  const leastMm = mmOf(header.settings.shortestStraight) - 1e-9;
  for (const straightMm of newStraights(made, proposal)) expect(straightMm).toBeGreaterThanOrEqual(leastMm);
  expectWithin(
    proposal.lengthMm,
    lengthByHand(made) - mmOf(header.settings.weldShrinkage) * (made.pieces.length - 1),
    1e-9,
  );
  expect(proposal.bends).toBe(proposal.pieces.filter(({ kind }) => kind === 'bend').length);
  expect(proposal.joints).toBe(proposal.pieces.length + 1);
  return after;
}

/** Lengths from bend to bend, from the last bend that is kept (or the port) to the inlet: straights that follow on each other are one. */
function newStraights({ pieces }: Primary, { keptPieces }: ProposedPrimary): readonly number[] {
  const bends = pieces.flatMap((piece, index) => (piece.kind === 'straight' ? [] : [index]));
  const lastKept = bends.findLast((index) => index < keptPieces) ?? -1;
  const between = [lastKept, ...bends.filter((index) => index >= keptPieces), pieces.length];
  return between
    .slice(1)
    .map((to, i) =>
      pieces
        .slice((between[i] ?? 0) + 1, to)
        .reduce((sumMm, piece) => sumMm + (piece.kind === 'straight' ? mmOf(piece.length) : 0), 0),
    );
}

function slipOf(header: Header, { inletId }: Primary): number {
  const inlet = header.collectors.flatMap(({ inlets }) => inlets).find(({ id }) => id === inletId);
  return inlet === undefined ? 0 : mmOf(inlet.slip.deeper);
}

function lengthByHand({ pieces }: Primary): number {
  return pieces.reduce((sumMm, piece) => {
    if (piece.kind === 'straight') return sumMm + mmOf(piece.length);
    if (piece.kind === 'bend') return sumMm + (mmOf(piece.clr) * piece.angleDeg * Math.PI) / 180;
    throw new Error('no pie-cut bend is ever proposed');
  }, 0);
}
