/** What every panel about shape is given. */

import type { Header, Piece, Primary } from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';

export interface ShapeProps {
  readonly session: HeaderSession;
  readonly header: Header;
  /** The primary in hand. */
  readonly primary: Primary;
  /** The piece in hand; null until one is chosen. */
  readonly piece: Piece | null;
}

export type ShapePanelId = 'ends' | 'clocking' | 'closure' | 'clearance' | 'obstacles' | 'tables' | 'bank';
