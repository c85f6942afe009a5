/** Pictures of the header in hand: dropped in or chosen, named, put in order; of a finished header to be looked at. */

import { ArrowLeft, ArrowRight, ImagePlus, Trash2 } from 'lucide-react';
import { type DragEvent, useState } from 'react';
import { Button as AriaButton } from 'react-aria-components';
import { PICTURES_LIMIT } from '../../core/index.ts';
import { askForFiles } from '../host/files.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { takesNoSteps } from '../session/session-state.ts';
import { useSession } from '../session/use-session.ts';
import { Button } from '../ui/button.tsx';
import { useOneAtATime } from '../ui/hooks/use-one-at-a-time.ts';
import { IconButton } from '../ui/icon-button.tsx';
import { CaptionField } from './caption-field.tsx';
import { LargePicture } from './large-picture.tsx';
import { pictureName } from './picture-words.ts';
import { type PicturesKeeper, type ShownPicture, usePictures } from './use-pictures.ts';
import './pictures.css';

export function PicturesPanel({ session }: { readonly session: HeaderSession }) {
  const keeper = usePictures(session.headerId);
  const isFrozen = useSession(session, takesNoSteps);
  const [largeId, setLargeId] = useState<string | null>(null);
  const pictures = keeper.pictures ?? [];
  const large = pictures.findIndex(({ id }) => id === largeId);
  return (
    <div className="pictures">
      {isFrozen ? null : <AddPictures keeper={keeper} />}
      {keeper.words === '' ? null : <p role="alert">{keeper.words}</p>}
      <p className="muted">{countWords(keeper.pictures, isFrozen)}</p>
      <ul className="picture-list">
        {pictures.map((picture, at) => (
          <li key={picture.id} className="picture-card">
            <Thumbnail picture={picture} at={at} onOpen={() => setLargeId(picture.id)} />
            {isFrozen ? (
              <p className="picture-caption">{picture.caption}</p>
            ) : (
              <PictureTools {...{ keeper, picture, at, count: pictures.length }} />
            )}
          </li>
        ))}
      </ul>
      {isFrozen ? null : (
        <p className="muted">They freeze with the header when it is finished. A copy of the header has none of them.</p>
      )}
      {large < 0 ? null : (
        <LargePicture
          pictures={pictures}
          at={large}
          onGo={(to) => setLargeId(pictures[to]?.id ?? null)}
          onClose={() => setLargeId(null)}
        />
      )}
    </div>
  );
}

function countWords(pictures: PicturesKeeper['pictures'], isFrozen: boolean): string {
  if (pictures === null) return 'Reading the pictures…';
  if (isFrozen)
    return pictures.length === 0
      ? 'No pictures were kept with this header.'
      : 'Kept with the header as it was finished.';
  return `${pictures.length} of ${PICTURES_LIMIT}, saved at once. Undo does not reach them.`;
}

function AddPictures({ keeper }: { readonly keeper: PicturesKeeper }) {
  const [isOver, setIsOver] = useState(false);
  const [isAdding, choose] = useOneAtATime(async () => keeper.add(await askForFiles('image/*')));
  const onDragOver = (event: DragEvent) => {
    if (!event.dataTransfer.types.includes('Files')) return;
    event.preventDefault();
    setIsOver(true);
  };
  const onDrop = (event: DragEvent) => {
    event.preventDefault();
    setIsOver(false);
    void keeper.add([...event.dataTransfer.files]);
  };
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: files are dropped here; the button inside does the same by key.
    <div
      className="picture-drop"
      data-over={isOver || undefined}
      onDragOver={onDragOver}
      onDragLeave={() => setIsOver(false)}
      onDrop={onDrop}
    >
      <Button onPress={choose} isDisabled={isAdding || (keeper.pictures?.length ?? 0) >= PICTURES_LIMIT}>
        <ImagePlus className="icon" aria-hidden="true" /> Add pictures
      </Button>
      <span className="muted">or drop them here</span>
    </div>
  );
}

interface ThumbnailProps {
  readonly picture: ShownPicture;
  readonly at: number;
  readonly onOpen: () => void;
}

function Thumbnail({ picture, at, onOpen }: ThumbnailProps) {
  const name = pictureName(picture, at);
  if (picture.source === null) return <p className="picture-thumb picture-damaged">{name} is damaged on disk.</p>;
  return (
    <AriaButton className="picture-thumb" aria-label={`Open ${name}`} onPress={onOpen}>
      {picture.source === undefined ? null : <img src={picture.source} alt="" />}
    </AriaButton>
  );
}

interface ToolsProps {
  readonly keeper: PicturesKeeper;
  readonly picture: ShownPicture;
  readonly at: number;
  readonly count: number;
}

function PictureTools({ keeper, picture, at, count }: ToolsProps) {
  const name = pictureName(picture, at);
  const move = (to: number) => void keeper.change(picture, { kind: 'move', to });
  return (
    <>
      <CaptionField
        label={`Caption of picture ${at + 1}`}
        caption={picture.caption}
        onChange={(caption) => void keeper.change(picture, { kind: 'caption', caption })}
      />
      <div className="picture-tools">
        <IconButton Icon={ArrowLeft} name={`Move ${name} earlier`} isDisabled={at === 0} onPress={() => move(at - 1)} />
        <IconButton
          Icon={ArrowRight}
          name={`Move ${name} later`}
          isDisabled={at === count - 1}
          onPress={() => move(at + 1)}
        />
        <IconButton Icon={Trash2} name={`Remove ${name}`} onPress={() => void keeper.remove(picture)} />
      </div>
    </>
  );
}
