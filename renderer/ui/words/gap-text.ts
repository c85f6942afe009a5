/** A gap between two bodies as a figure that shows whether it is enough. */

import {
  finenessMm,
  finerStyle,
  formatGap,
  formatLength,
  type Header,
  type HeaderGap,
  mmOf,
} from '../../../core/index.ts';

/** `3/16"`; `overlaps 1/8"` where the two run into each other; `0.248", 0.002" under` where rounding would hide that it is tight. */
export function gapText({ clearance: { gapMm }, isTight }: HeaderGap, header: Header): string {
  const { display, wantedGap } = header.settings;
  const wantedMm = mmOf(wantedGap);
  const text = formatGap(gapMm, display);
  if (!isTight || text !== formatLength(wantedMm, display)) return text;
  const fine = finerStyle(display);
  const underMm = Math.max(wantedMm - gapMm, finenessMm(fine));
  return `${formatLength(wantedMm - underMm, fine)}, ${formatLength(underMm, fine)} under`;
}
