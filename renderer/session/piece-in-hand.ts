/** The piece in hand of an open header, which the screens that show its pieces share: choosing it on one has it chosen on the other. */

import type { HeaderSession } from './header-session.ts';

const inHand = new WeakMap<HeaderSession, string | null>();

/** Its id; null where none is. It may be gone from the header. */
export function pieceInHand(session: HeaderSession): string | null {
  return inHand.get(session) ?? null;
}

export function takeInHand(session: HeaderSession, pieceId: string | null): void {
  inHand.set(session, pieceId);
}
