/** How lengths are shown: the display unit of a header and its fineness. */

import type { LengthUnit } from './length.ts';

/** Inch fractions to 1/8, 1/16, 1/32 or 1/64; decimal inches; or millimetres. */
export type LengthStyle =
  | { readonly kind: 'fraction'; readonly per: 8 | 16 | 32 | 64 }
  | { readonly kind: 'decimalInch'; readonly places: 2 | 3 | 4 }
  | { readonly kind: 'mm'; readonly places: 0 | 1 | 2 };

/** The unit that a bare number typed under this style is read in. */
export function unitOf(style: LengthStyle): LengthUnit {
  return style.kind === 'mm' ? 'mm' : 'in';
}

/** A style of the same unit in which a figure too fine for `style` can be read: to 0.001 in or 0.01 mm, or one place more. */
export function finerStyle(style: LengthStyle): LengthStyle {
  if (style.kind === 'mm') return { kind: 'mm', places: 2 };
  return { kind: 'decimalInch', places: style.kind === 'decimalInch' && style.places > 2 ? 4 : 3 };
}
