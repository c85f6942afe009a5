/** Degrees, which people type, and radians, which arcs need. */

export function radiansOf(angleDeg: number): number {
  return (angleDeg * Math.PI) / 180;
}

export function degreesOf(angleRad: number): number {
  return (angleRad * 180) / Math.PI;
}

/** `value` to so many decimals, halves up, never as minus zero: degrees as people say and set them. */
export function roundedTo(value: number, decimals: 1 | 2): number {
  const parts = 10 ** decimals;
  return Math.round(value * parts) / parts + 0;
}
