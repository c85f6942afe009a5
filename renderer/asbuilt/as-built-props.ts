/** What every part of the as-built panel is given. */

import type { Header, Primary, ShelfOffers } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';

export interface AsBuiltProps {
  readonly session: HeaderSession;
  readonly header: Header;
  /** The primary in hand. */
  readonly primary: Primary;
  readonly offers: ShelfOffers;
}
