/** What a list knows of a header before it is opened. */

import type { ResponseOf } from '../../electron/bridge/contract.ts';

export type HeaderSummary = ResponseOf<'listHeaders'>['headers'][number];
