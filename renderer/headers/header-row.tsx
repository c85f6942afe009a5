/** One header in the list: its name opens it, the rest says how far it is, and More holds what else can be done. */

import { useState } from 'react';
import { Button } from '../ui/button.tsx';
import { ActionMenu } from '../ui/fields/choice-menu.tsx';
import { RenameLine } from '../ui/fields/rename-line.tsx';
import { StripPreview } from '../ui/strip-preview.tsx';
import { countOf, showTime } from '../ui/words/spoken.ts';
import type { HeaderSummary } from './header-summary.ts';
import type { HeaderPicture } from './use-header-pictures.ts';

interface Props {
  readonly summary: HeaderSummary;
  /** Null: not read yet, or nothing to draw. */
  readonly picture: HeaderPicture | null;
  readonly onOpen: () => void;
  readonly onRename: (name: string) => void;
  readonly onDuplicate: () => void;
  readonly onExport: () => void;
  readonly onBin: () => void;
}

export function aboutHeader(summary: HeaderSummary): string {
  const parts = [countOf(summary.primaryCount, 'primary', 'primaries'), countOf(summary.pieceCount, 'piece')];
  const finished = summary.state === 'finished' ? ', finished' : '';
  return `${parts.join(', ')}${finished}. Changed ${showTime(summary.changedAt)}.`;
}

export function HeaderRow(props: Props) {
  const { summary, picture } = props;
  const [renaming, setRenaming] = useState(false);
  const finished = summary.state === 'finished';
  return (
    <li className="header-row">
      <div className="header-thumbnail" aria-hidden="true">
        {picture === null ? null : <StripPreview primaries={picture.strips} title="" />}
      </div>
      {renaming ? (
        <RenameLine
          name={summary.name}
          onDone={(name) => {
            setRenaming(false);
            if (name !== null) props.onRename(name);
          }}
        />
      ) : (
        <div className="header-row-main">
          <Button look="quiet" onPress={props.onOpen}>
            {summary.name}
          </Button>
          <p className="muted">{aboutHeader(summary)}</p>
        </div>
      )}
      <p className="header-tally">{picture?.tally ?? ''}</p>
      <ActionMenu
        label={`More for ${summary.name}`}
        acts={[
          { id: 'open', name: 'Open', run: props.onOpen },
          // The database refuses any change to a finished header, its name included.
          ...(finished ? [] : [{ id: 'rename', name: 'Rename', run: () => setRenaming(true) }]),
          { id: 'duplicate', name: 'Duplicate', run: props.onDuplicate },
          { id: 'export', name: 'Export to a file', run: props.onExport },
          { id: 'bin', name: 'Move to the bin', run: props.onBin },
        ]}
      >
        More
      </ActionMenu>
    </li>
  );
}
