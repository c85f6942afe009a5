/** What the host found in a file, and where it may go. */

import type { ResponseOf } from '../../../electron/bridge/contract.ts';

export type Preview = ResponseOf<'previewFile'>;
export type Expected = Preview['kind'];
/** Where a parts list goes; everything else has one place only. */
export type Destination = 'newHeader' | 'openHeader';
