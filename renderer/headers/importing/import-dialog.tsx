/** What is in a file, shown before any of it is kept: a header, a parts list or a list of stock. */

import { useEffect, useState } from 'react';
import type { Header, LengthUnit } from '../../../core/index.ts';
import type { GivenFile } from '../../host/files.ts';
import { type Answer, useAsk } from '../../host/host-bridge.ts';
import { Button } from '../../ui/button.tsx';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { ModalDialog } from '../../ui/modal-dialog.tsx';
import { acceptWords, addWords, FilePreview } from './file-preview.tsx';
import type { Destination, Expected, Preview } from './given-preview.ts';
import { besideShelf } from './stock-beside-shelf.ts';

interface Props {
  readonly file: GivenFile;
  readonly expect: Expected;
  readonly unit: LengthUnit;
  /** The header that a parts list may be added to; null while none is open. */
  readonly openHeader: Header | null;
  readonly onClose: () => void;
  /** Resolves to the words of a refusal, or null when it is done and the dialog may close. */
  readonly onAccept: (preview: Preview, to: Destination) => Promise<string | null>;
}

const KINDS = [
  { id: 'header', name: 'A header file' },
  { id: 'parts', name: 'A parts list (CSV)' },
  { id: 'stock', name: 'A list of stock for the shelf (CSV)' },
] as const;

const UNITS = [
  { id: 'in', name: 'inches' },
  { id: 'mm', name: 'millimetres' },
] as const;

/** What a file most likely is, from its name and from where the person was. */
export function guessKind(fileName: string, onShelf: boolean): Expected {
  if (!/\.(csv|tsv|txt)$/i.test(fileName)) return 'header';
  return onShelf ? 'stock' : 'parts';
}

type Looked = { readonly ok: true; readonly value: Preview } | Exclude<Answer<'previewFile'>, { readonly ok: true }>;

/** What is in the file; a stock list is held beside the shelf as it is now. */
async function lookAt(ask: ReturnType<typeof useAsk>, file: GivenFile, { expect, unit }: Reading): Promise<Looked> {
  const given = await ask('previewFile', { ...file, expect, unit });
  if (!given.ok) return given;
  if (given.value.kind !== 'stock') return { ok: true, value: given.value };
  const shelf = await ask('listStock', {});
  return shelf.ok ? { ok: true, value: besideShelf(given.value, shelf.value.stock) } : shelf;
}

interface Reading {
  readonly expect: Expected;
  readonly unit: LengthUnit;
}

/** Asks the host to read the file, again whenever the reading of it changes; null while it reads. */
function usePreview(file: GivenFile, expect: Expected, unit: LengthUnit): Looked | null {
  const ask = useAsk();
  const [answer, setAnswer] = useState<Looked | null>(null);
  useEffect(() => {
    let isWanted = true;
    setAnswer(null);
    void lookAt(ask, file, { expect, unit }).then((given) => {
      if (isWanted) setAnswer(given);
    });
    return () => {
      isWanted = false;
    };
  }, [ask, file, expect, unit]);
  return answer;
}

export function ImportDialog(props: Props) {
  const [expect, setExpect] = useState(props.expect);
  const [unit, setUnit] = useState(props.unit);
  const [refusal, setRefusal] = useState<string | null>(null);
  const answer = usePreview(props.file, expect, unit);
  const preview = answer?.ok ? answer.value : null;
  const accept = async (to: Destination) => {
    if (preview === null) return;
    const words = await props.onAccept(preview, to);
    if (words === null) props.onClose();
    else setRefusal(words);
  };
  return (
    <ModalDialog
      title={`Import ${props.file.fileName}`}
      isOpen
      size="large"
      onClose={props.onClose}
      actions={
        <>
          <Button onPress={props.onClose}>Import nothing</Button>
          {preview === null ? null : (
            <Accepting preview={preview} openHeader={props.openHeader} onAccept={(to) => void accept(to)} />
          )}
        </>
      }
    >
      <div className="import-reading">
        <ChoiceField label="Read it as" choices={KINDS} chosen={expect} onChoose={setExpect} />
        {expect === 'header' ? null : (
          <ChoiceField label="Numbers without a unit are" choices={UNITS} chosen={unit} onChoose={setUnit} />
        )}
      </div>
      <div aria-live="polite">
        {answer === null ? <p className="muted">Reading…</p> : null}
        {answer?.ok === false ? (
          <p className="import-refusal">
            Nothing could be taken from this file, and nothing was changed. {answer.words}
          </p>
        ) : null}
        {refusal === null ? null : <p className="import-refusal">Nothing was imported. {refusal}</p>}
      </div>
      {preview === null ? null : <FilePreview preview={preview} openHeader={props.openHeader} />}
    </ModalDialog>
  );
}

interface AcceptingProps {
  readonly preview: Preview;
  readonly openHeader: Header | null;
  readonly onAccept: (to: Destination) => void;
}

/** One button for each place that what was read can go to; none when nothing was. */
function Accepting({ preview, openHeader, onAccept }: AcceptingProps) {
  const asNew = acceptWords(preview);
  const added = addWords(preview, openHeader);
  return (
    <>
      {added === null ? null : <Button onPress={() => onAccept('openHeader')}>{added}</Button>}
      {asNew === null ? null : (
        <Button look="main" onPress={() => onAccept('newHeader')}>
          {asNew}
        </Button>
      )}
    </>
  );
}
