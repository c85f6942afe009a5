/** One picture as large as the window takes it, with the way to the next and the one before. */

import { Button } from '../ui/button.tsx';
import { ModalDialog } from '../ui/modal-dialog.tsx';
import type { ShownPicture } from './use-pictures.ts';

interface Props {
  readonly pictures: readonly ShownPicture[];
  readonly at: number;
  readonly onGo: (to: number) => void;
  readonly onClose: () => void;
}

export function LargePicture({ pictures, at, onGo, onClose }: Props) {
  const picture = pictures[at];
  if (picture === undefined) return null;
  const title = `Picture ${at + 1} of ${pictures.length}`;
  const actions = (
    <>
      <Button onPress={onClose}>Close</Button>
      <Button isDisabled={at === 0} onPress={() => onGo(at - 1)}>
        Previous
      </Button>
      <Button isDisabled={at === pictures.length - 1} onPress={() => onGo(at + 1)}>
        Next
      </Button>
    </>
  );
  return (
    <ModalDialog title={title} isOpen size="large" onClose={onClose} actions={actions}>
      <figure className="picture-large">
        {picture.source ? (
          <img src={picture.source} alt={picture.caption === '' ? title : picture.caption} />
        ) : (
          <p>{picture.source === null ? 'This picture is damaged on disk.' : 'Reading…'}</p>
        )}
        {picture.caption === '' ? null : <figcaption>{picture.caption}</figcaption>}
      </figure>
    </ModalDialog>
  );
}
