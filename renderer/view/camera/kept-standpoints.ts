/** Where each header was last looked at from, so that the stage starts where it was left. */

import type { Standpoint } from './view-camera.ts';

export interface KeptStandpoints {
  /** Null: the header was not looked at from anywhere else than the first view. */
  readonly of: (headerId: string) => Standpoint | null;
  readonly keep: (headerId: string, standpoint: Standpoint) => void;
}
