/** Brings finished headers back from a file: how far it is, what came in, what was here already, and which lines were refused. */

import { askForFile } from '../../host/files.ts';
import { Button } from '../../ui/button.tsx';
import { ModalDialog } from '../../ui/modal-dialog.tsx';
import { countOf, showBytes } from '../../ui/words/spoken.ts';
import { WorkProgress } from '../../ui/work-progress.tsx';
import { type BringingBack, type Tally, useBringBack } from './use-bring-back.ts';

interface Props {
  /** Told when headers came in, so that lists read again. */
  readonly onBrought: () => void;
  readonly onClose: () => void;
}

export function BringBack({ onBrought, onClose }: Props) {
  const { state, begin, stop } = useBringBack();
  const isUnderWay = state !== null && state.ended === null;
  const choose = async () => {
    const file = await askForFile('.jsonl,.json,application/jsonl');
    if (file === null) return;
    const ended = await begin(file);
    if (ended.tally.brought > 0) onBrought();
  };
  const close = () => {
    stop();
    onClose();
  };
  return (
    <ModalDialog
      title="Bring finished headers back"
      isOpen
      onClose={close}
      actions={
        <>
          <Button onPress={close}>Close</Button>
          {isUnderWay ? null : (
            <Button look={state === null ? 'main' : 'plain'} onPress={() => void choose()}>
              {state === null ? 'Choose a file' : 'Choose another file'}
            </Button>
          )}
        </>
      }
    >
      {state === null ? (
        <p>
          Choose a file that Evenrun exported (its name ends in .finished.jsonl). Each header in it is checked against
          its checksum and comes into the archive as it was finished. One that is here already is left as it is.
        </p>
      ) : (
        <Told state={state} onStop={stop} />
      )}
    </ModalDialog>
  );
}

function Told({ state, onStop }: { readonly state: BringingBack; readonly onStop: () => void }) {
  const { ended, tally, done, of, fileName } = state;
  return (
    <>
      {ended === null ? (
        <WorkProgress
          words={`Reading ${fileName}`}
          done={done}
          of={of}
          figure={`${showBytes(done)} of ${showBytes(of)}, ${countOf(tally.brought, 'header')} in`}
          onStop={onStop}
        />
      ) : null}
      <p role="status">{ended === null ? '' : endedWords(state)}</p>
      {ended === null ? null : <Refused refused={tally.refused} />}
    </>
  );
}

/** Whole headers only: a stop or a fault leaves none half. */
function endedWords({ ended, tally, fileName }: BringingBack): string {
  const start = ended === 'all' ? '' : ended === 'stopped' ? 'Stopped. ' : ended === null ? '' : `${ended.words} `;
  return `${start}${tallyWords(tally, fileName)}`;
}

function tallyWords({ brought, asAnother, alreadyThere, inBin, refused }: Tally, fileName: string): string {
  const parts = [
    `${countOf(brought, 'finished header')} brought in from ${fileName}`,
    ...(asAnother > 0 ? [`${asAnother} of them beside another header of the same origin`] : []),
    ...(alreadyThere > 0 ? [`${alreadyThere} already here`] : []),
    ...(inBin > 0 ? [`${inBin} already here, in the bin`] : []),
    ...(refused.length > 0 ? [`${countOf(refused.length, 'line')} not taken`] : []),
  ];
  return `${parts.join('; ')}.`;
}

const SHOWN = 50;

function Refused({ refused }: Pick<Tally, 'refused'>) {
  if (refused.length === 0) return null;
  return (
    <>
      <h3>Not taken</h3>
      <ul className="refused-lines">
        {refused.slice(0, SHOWN).map(({ line, words }) => (
          <li key={line}>
            Line {line}: {words}
          </li>
        ))}
      </ul>
      {refused.length > SHOWN ? <p>And {countOf(refused.length - SHOWN, 'more line')}.</p> : null}
    </>
  );
}
