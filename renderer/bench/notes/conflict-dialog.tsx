/** Two windows changed one header: both are shown, and nothing is overwritten until a person chose. */

import { useState } from 'react';
import { formatLength, type Header, matchHeader } from '../../../core/index.ts';
import type { HeaderSession } from '../../session/header-session.ts';
import type { Conflict, ConflictChoice, DroppedStep, OpenedHeader } from '../../session/session-state.ts';
import { useSession } from '../../session/use-session.ts';
import { Button } from '../../ui/button.tsx';
import { FigureText } from '../../ui/figure-text.tsx';
import { ModalDialog } from '../../ui/modal-dialog.tsx';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { countOf } from '../../ui/words/spoken.ts';
import { primaryTitle, verdictWords } from '../../ui/words/verdict-words.ts';

interface ConflictsProps {
  readonly session: HeaderSession;
  readonly onCopied: (opened: OpenedHeader) => void;
}

/** Nothing until another window changed the header under this one. */
export function Conflicts({ session, onCopied }: ConflictsProps) {
  const conflict = useSession(session, (state) => state.conflict);
  const dropped = useSession(session, (state) => state.dropped);
  return (
    <>
      {conflict === null ? null : <ConflictDialog session={session} conflict={conflict} onCopied={onCopied} />}
      <DroppedDialog session={session} dropped={dropped} />
    </>
  );
}

interface Props {
  readonly session: HeaderSession;
  readonly conflict: Conflict;
  readonly onCopied: (opened: OpenedHeader) => void;
}

function ConflictDialog({ session, conflict, onCopied }: Props) {
  const [hasFailed, setHasFailed] = useState(false);
  const choose = async (choice: ConflictChoice) => {
    const copy = await session.settleConflict(choice);
    // Still there: the host could not be asked. Both versions stay as they are.
    setHasFailed(session.getState().conflict !== null && copy === null);
    if (copy !== null) onCopied(copy);
  };
  const { theirs } = conflict;
  return (
    <ModalDialog
      title="This header was changed in another window"
      isOpen
      canDismiss={false}
      size="large"
      onClose={() => undefined}
      actions={
        <>
          <Button look="main" onPress={() => void choose('mineAsCopy')}>
            Save mine as a copy
          </Button>
          {theirs?.state === 'open' ? (
            <Button onPress={() => void choose('mineOnTop')}>Reapply my changes to theirs</Button>
          ) : null}
          {theirs === null ? null : <Button onPress={() => void choose('theirs')}>Take theirs, drop mine</Button>}
        </>
      }
    >
      <p>{introduction(conflict)}</p>
      <div className="versions">
        {theirs === null ? null : <Version name="On disk" header={theirs} />}
        <Version name="In this window" header={conflict.mine} />
      </div>
      <h3>Not on disk yet</h3>
      <ul>
        {conflict.mySteps.map((label, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a list that does not change while it is shown
          <li key={index}>{label}</li>
        ))}
      </ul>
      {hasFailed ? <p role="alert">The program could not save that. Nothing is lost; try again.</p> : null}
    </ModalDialog>
  );
}

function introduction({ theirs }: Conflict): string {
  if (theirs === null) return 'The header was removed. What this window holds can be saved as a copy.';
  if (theirs.state === 'finished')
    return 'The other window finished the header, so it cannot change any more. Both versions are shown here.';
  return 'Nothing was overwritten. Compare the two, then choose.';
}

function Version({ name, header }: { readonly name: string; readonly header: Header }) {
  const style = header.settings.display;
  const report = matchHeader(header);
  return (
    <section aria-label={name}>
      <h3>{name}</h3>
      <p>{header.name}</p>
      <ul className="version-list">
        {report.primaries.map((match) => (
          <li key={match.primaryId}>
            {primaryTitle(match.name)}:{' '}
            <FigureText text={`${formatLength(match.lengthMm, style)}, ${verdictWords(match, style)}`} />,{' '}
            {countOf(match.pieceLengthsMm.length, 'piece')}
          </li>
        ))}
      </ul>
    </section>
  );
}

interface DroppedProps {
  readonly session: HeaderSession;
  readonly dropped: readonly DroppedStep[];
}

function DroppedDialog({ session, dropped }: DroppedProps) {
  return (
    <ModalDialog
      title="Some of your steps no longer fit"
      isOpen={dropped.length > 0}
      onClose={() => session.dismissDropped()}
      actions={<Button onPress={() => session.dismissDropped()}>Close</Button>}
    >
      <p>The others were made again on top of what is on disk. These were left out:</p>
      <ul>
        {dropped.map((step, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: a list that does not change while it is shown
          <li key={index}>
            <FigureText text={`${step.label}: ${wordsFor(step.problems)}`} />
          </li>
        ))}
      </ul>
    </ModalDialog>
  );
}
