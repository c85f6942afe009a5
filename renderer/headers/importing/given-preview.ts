/** What the host found in a file, and where it may go. */

import type { ResponseOf } from '../../../electron/bridge/contract.ts';
import type { StockBesideShelf } from './stock-beside-shelf.ts';

export type Preview = Exclude<ResponseOf<'previewFile'>, { kind: 'stock' }> | StockBesideShelf;
export type Expected = Preview['kind'];
/** Where a parts list goes; everything else has one place only. */
export type Destination = 'newHeader' | 'openHeader';
