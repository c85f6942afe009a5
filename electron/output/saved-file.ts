/** Where an exported text went. */

import type { ResponseOf } from '../bridge/contract.ts';

/** Saved by the host's dialog, called off, or handed over for the page to download. */
export type SavedFile = ResponseOf<'exportHeader'>;
