/** Where a primary goes, by three's matrices alone: nothing here calls what it is held against. */

import { Matrix4, Vector3 } from 'three';
import type { Piece, Pose } from '../../core/header/header.ts';
import { mmOf } from '../../core/units/length.ts';

const radians = (deg: number) => (deg * Math.PI) / 180;

/** A pose as a matrix whose axes are direction, up and right. */
export function poseMatrix(pose: Pose): Matrix4 {
  const tangent = new Vector3(pose.direction.x, pose.direction.y, pose.direction.z).normalize();
  const normal = new Vector3(pose.up.x, pose.up.y, pose.up.z).projectOnPlane(tangent).normalize();
  const place = new Matrix4().makeTranslation(mmOf(pose.at.x), mmOf(pose.at.y), mmOf(pose.at.z));
  return place.multiply(new Matrix4().makeBasis(tangent, normal, tangent.clone().cross(normal)));
}

/** Each piece as a product of three's matrices in the tube's own frame: x along, y towards the bend's centre. */
export function pieceMatrix(piece: Piece): Matrix4 {
  const along = (mm: number) => new Matrix4().makeTranslation(mm, 0, 0);
  if (piece.kind === 'straight') return along(mmOf(piece.length));
  const clrMm = mmOf(piece.clr);
  const matrix = new Matrix4().makeRotationX(radians(piece.clockingDeg ?? 0));
  if (piece.kind === 'bend') {
    return matrix
      .multiply(new Matrix4().makeTranslation(0, clrMm, 0))
      .multiply(new Matrix4().makeRotationZ(radians(piece.angleDeg)))
      .multiply(new Matrix4().makeTranslation(0, -clrMm, 0));
  }
  const halfMm = clrMm * Math.tan(radians(piece.angleDeg / piece.pies / 2));
  const mitre = new Matrix4().makeRotationZ(radians(piece.angleDeg / piece.pies));
  for (let pie = 0; pie < piece.pies; pie += 1) matrix.multiply(along(halfMm)).multiply(mitre).multiply(along(halfMm));
  return matrix;
}

export interface MatrixFrame {
  readonly point: Vector3;
  readonly tangent: Vector3;
  readonly normal: Vector3;
}

/** The frame that a matrix stands for. */
export function frameIn(matrix: Matrix4): MatrixFrame {
  const [tangent, normal] = [new Vector3(), new Vector3()];
  matrix.extractBasis(tangent, normal, new Vector3());
  return { point: new Vector3().setFromMatrixPosition(matrix), tangent, normal };
}

/** Where pieces end that start at a pose. */
export function endByMatrices(pieces: readonly Piece[], port: Pose): MatrixFrame {
  const matrix = poseMatrix(port);
  for (const piece of pieces) matrix.multiply(pieceMatrix(piece));
  return frameIn(matrix);
}

/** Length of the centreline, from the definitions: arcs, and the chords of pie-cut bends. */
export function centrelineMm(pieces: readonly Piece[]): number {
  return pieces.reduce((sumMm, piece) => {
    if (piece.kind === 'straight') return sumMm + mmOf(piece.length);
    const clrMm = mmOf(piece.clr);
    if (piece.kind === 'bend') return sumMm + clrMm * radians(piece.angleDeg);
    return sumMm + 2 * piece.pies * clrMm * Math.tan(radians(piece.angleDeg / piece.pies / 2));
  }, 0);
}
