/** Degrees, which people type, and radians, which arcs need. */

export function radiansOf(angleDeg: number): number {
  return (angleDeg * Math.PI) / 180;
}

export function degreesOf(angleRad: number): number {
  return (angleRad * 180) / Math.PI;
}
