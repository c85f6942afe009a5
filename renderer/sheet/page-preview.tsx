/** The pages to look at, one at a time. */

import { type ReactNode, useState } from 'react';
import { Button } from '../ui/button.tsx';
import { missingLettersWords } from './missing-letters.ts';
import { PagePicture } from './page-picture.tsx';
import type { Drawn } from './use-pages.ts';

interface Props {
  readonly drawn: Drawn;
  /** What the pages are: "Build sheet". */
  readonly name: string;
  /** What can be done with the pages, beside the buttons that turn them. */
  readonly children: ReactNode;
}

export function PagePreview({ drawn, name, children }: Props) {
  const [wanted, setWanted] = useState(0);
  if (drawn.kind === 'failed') return <p role="alert">{drawn.words}</p>;
  const { pages, missing } = drawn;
  const at = Math.min(wanted, Math.max(0, pages.length - 1));
  const page = pages[at];
  const title = `Page ${at + 1} of ${pages.length}`;
  return (
    <section className="sheet-preview" aria-label={`Preview: ${name}`} aria-busy={drawn.kind === 'drawing'}>
      <div className="sheet-tools">
        <div className="actions">{children}</div>
        <div className="actions">
          <Button isDisabled={at === 0} onPress={() => setWanted(at - 1)}>
            Previous page
          </Button>
          <p role="status">{page === undefined ? 'Drawing the pages' : title}</p>
          <Button isDisabled={at >= pages.length - 1} onPress={() => setWanted(at + 1)}>
            Next page
          </Button>
        </div>
      </div>
      {missing.length === 0 ? null : <p role="status">{missingLettersWords(missing)}</p>}
      {page === undefined ? null : <PagePicture page={page} name={`${name}, ${title.toLowerCase()}`} />}
    </section>
  );
}
