/** How long the stage waits before it follows the bench. */

import type { Header } from '../../../core/index.ts';

/** What the stage shows. */
export interface Shown {
  readonly header: Header;
  readonly preview: Header | null;
  readonly primaryId: string;
  readonly pieceId: string | null;
}

/** Longer than from one key to the next while an arrow key is held down. */
const REST_MS = 60;

/** The piece in hand lights up once the hand rests: a picture for each row gone past would hold up the next key. */
export function restMs(before: Shown, now: Shown): number {
  return before.header === now.header && before.preview === now.preview ? REST_MS : 0;
}
