/** How exactly the shops of these tests work. */

import type { ShopTolerances } from '../../../core/header/measured.ts';
import { inches } from '../../../core/units/length.ts';

/** Angles and clockings by a digital gauge, straights by a stop on the saw. */
export const CAREFUL_SHOP: ShopTolerances = { angleDeg: 0.25, clockingDeg: 0.25, length: inches(1 / 64) };

/** Makes everything to its figure. */
export const EXACT_SHOP: ShopTolerances = { angleDeg: 0, clockingDeg: 0, length: inches(0) };
