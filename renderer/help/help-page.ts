/** What a page of help is. */

import type { ReactNode } from 'react';

export interface HelpPage {
  /** As in the address. */
  readonly id: string;
  /** The job, as the person would say it. */
  readonly title: string;
  readonly body: ReactNode;
}
