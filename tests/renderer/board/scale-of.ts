/** The board's scale as it is on a page in desk size. */

import { type DeviationScale, deviationScale, wordsRoomPx } from '../../../renderer/board/scale/deviation-scale.ts';

const DESK_LETTER_PX = 14;

export function scaleOf(halfMm: number, widthPx: number, letterPx: number = DESK_LETTER_PX): DeviationScale {
  return deviationScale(halfMm, widthPx, wordsRoomPx(widthPx, letterPx));
}
