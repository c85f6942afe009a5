/** How thin the wall is on the outside of a bend. */

export interface ThinnedWall {
  /** Part of the wall that is lost, 0 to 1. */
  readonly share: number;
  readonly wallMm: number;
}

/**
 * Thinning on the outside of a bend: `(Ro - CLR) / Ro` with `Ro = CLR + OD/2`, a rule of thumb of bending tool makers that
 * knows nothing of how the bend was made. @param clrMm above zero
 */
export function wallThinning(tube: { readonly odMm: number; readonly wallMm: number }, clrMm: number): ThinnedWall {
  const share = tube.odMm / 2 / (clrMm + tube.odMm / 2);
  return { share, wallMm: tube.wallMm * (1 - share) };
}
