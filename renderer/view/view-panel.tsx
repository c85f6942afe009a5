/** The header in space with what it takes to look at it: standard views, turning, a section, and flat views instead. */

import { type ReactNode, useCallback, useMemo, useState } from 'react';
import { type Header, headerClearances } from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { countOf } from '../ui/words/spoken.ts';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import { CORNER_TEXTS } from './annotations/labels.ts';
import type { KeptStandpoints } from './camera/kept-standpoints.ts';
import {
  FIRST_VIEW,
  fitCamera,
  type Insets,
  type PictureSize,
  type Standpoint,
  type ViewCamera,
} from './camera/view-camera.ts';
import { FlatViews } from './flat/flat-views.tsx';
import { describeScene, withPresent } from './scene/describe-scene.ts';
import type { Scene } from './scene/scene.ts';
import type { SectionCut } from './scene/section-cut.ts';
import type { PickedPiece } from './solid/header-view.ts';
import { SolidView } from './solid/solid-view.tsx';
import { ViewControls } from './view-controls.tsx';
import './view.css';

interface Props {
  readonly header: Header;
  /** The header as a move would leave it: drawn in its place, with the tubes that are changed dashed as they are. */
  readonly preview: Header | null;
  readonly primaryId: string | null;
  readonly pieceId: string | null;
  /** Where it is looked at from at first, and where that is kept. */
  readonly standpoints: KeptStandpoints;
  readonly onPick: (piece: PickedPiece) => void;
}

export function ViewPanel({ header, preview, primaryId, pieceId, standpoints, onPick }: Props) {
  const scene = useScene({ header, preview, primaryId, pieceId });
  const [standpoint, setStandpoint] = useStandpoint(header.id, standpoints);
  const [section, setSection] = useState<SectionCut | null>(null);
  const { isFlat, isLost, showsFlat, setIsFlat, lose, retry } = useFlatInstead();
  const [ref, size, textPx] = usePicture();
  const camera = useMemo(
    () =>
      standpoint.kind === 'free'
        ? standpoint.camera
        : fitCamera(standpoint.angles, scene.reaches, size, roomBeside(size, textPx)),
    [standpoint, scene.reaches, size, textPx],
  );
  return (
    <section className="view-panel" aria-label="Header in space">
      <ViewControls
        camera={camera}
        bounds={scene.bounds}
        style={header.settings.display}
        section={section}
        isFlat={isFlat || isLost}
        onStandpoint={setStandpoint}
        onSection={setSection}
        onFlat={setIsFlat}
      />
      <Picture frameRef={ref} scene={scene} camera={camera} showsFlat={showsFlat}>
        {size.widthPx === 0 ? null : showsFlat ? (
          <FlatViews
            scene={scene}
            heightPx={size.heightPx}
            textPx={textPx}
            onPick={(primary, piece) => onPick({ primaryId: primary, pieceId: piece })}
          />
        ) : (
          <SolidView
            scene={scene}
            camera={camera}
            section={section}
            size={size}
            textPx={textPx}
            label={spokenScene(scene)}
            onCamera={(next) => setStandpoint({ kind: 'free', camera: next })}
            onPick={onPick}
            onLost={lose}
          />
        )}
      </Picture>
      <ViewNotes scene={scene} isLost={isLost} onRetry={retry} />
    </section>
  );
}

function useStandpoint(
  headerId: string,
  { of, keep }: KeptStandpoints,
): readonly [Standpoint, (standpoint: Standpoint) => void] {
  const [standpoint, setStandpoint] = useState<Standpoint>(() => of(headerId) ?? { kind: 'all', angles: FIRST_VIEW });
  const stand = useCallback(
    (next: Standpoint) => {
      keep(headerId, next);
      setStandpoint(next);
    },
    [headerId, keep],
  );
  return [standpoint, stand];
}

/** For the axes in the lower left corner and for figures on either side; a narrow picture has its room below. */
function roomBeside({ widthPx, heightPx }: PictureSize, textPx: number): Insets {
  const cornerPx = CORNER_TEXTS * textPx;
  if (widthPx < 1.4 * heightPx) return { leftPx: 0, rightPx: 0, bottomPx: 0.75 * cornerPx };
  return { leftPx: cornerPx, rightPx: cornerPx / 2, bottomPx: 0 };
}

interface PictureProps {
  readonly frameRef: (element: Element | null) => (() => void) | undefined;
  readonly scene: Scene;
  readonly camera: ViewCamera;
  readonly showsFlat: boolean;
  readonly children: ReactNode;
}

/** The frame of the picture; what is drawn in it stands in its attributes, for those who cannot look. */
function Picture({ frameRef, scene, camera, showsFlat, children }: PictureProps) {
  return (
    <div
      className="view-picture"
      ref={frameRef}
      data-tubes={scene.tubes.length}
      data-pieces={scene.tubes.reduce((sum, tube) => sum + tube.pieces.length, 0)}
      data-gaps={scene.spans.filter(({ kind }) => kind === 'gap').length}
      data-before={scene.before.length}
      data-azimuth={Math.round(camera.azimuthDeg)}
      data-elevation={Math.round(camera.elevationDeg)}
      data-shows={showsFlat ? 'flat' : 'solid'}
    >
      {children}
    </div>
  );
}

/** Whether flat views stand in for the picture in space: asked for, or for want of WebGL. */
function useFlatInstead() {
  const [isFlat, choose] = useState(false);
  const [isLost, setIsLost] = useState(false);
  const lose = useCallback(() => setIsLost(true), []);
  const retry = useCallback(() => setIsLost(false), []);
  const setIsFlat = (flat: boolean) => {
    choose(flat);
    if (!flat) setIsLost(false);
  };
  return { isFlat, isLost, showsFlat: isFlat || isLost, setIsFlat, lose, retry };
}

/** The scene of the header, gaps included. Who shows it hands over a header that is painted already. */
function useScene({ header, preview, primaryId, pieceId }: Omit<Props, 'standpoints' | 'onPick'>): Scene {
  const shown = preview ?? header;
  const clearances = useMemo(() => headerClearances(shown), [shown]);
  return useMemo(() => {
    const scene = describeScene(shown, { primaryId, pieceId }, clearances);
    return preview === null ? scene : withPresent(scene, header);
  }, [shown, header, preview, primaryId, pieceId, clearances]);
}

function spokenScene({ tubes, spans }: Scene): string {
  const gaps = spans.filter(({ kind }) => kind === 'gap').length;
  const names = tubes.map(({ name }) => primaryTitle(name)).join(', ');
  const drawn = `${names === '' ? 'nothing drawn yet' : names}. ${countOf(gaps, 'gap')} under the minimum clearance.`;
  return `Header in space: ${drawn} Arrow keys turn it, plus and minus zoom, Shift and arrows move it.`;
}

interface NotesProps {
  readonly scene: Scene;
  readonly isLost: boolean;
  readonly onRetry: () => void;
}

function ViewNotes({ scene, isLost, onRetry }: NotesProps) {
  const drawn = scene.tubes.length === 0 ? ['Nothing to draw yet: enter a piece.'] : scene.notes;
  const notes = scene.before.length === 0 ? drawn : ['Solid: after the move. Dashed: as it is now.', ...drawn];
  return (
    <>
      {isLost ? (
        <p className="view-note" role="status">
          No 3D picture: this computer's graphics (WebGL) cannot be reached. The flat views show the same.
          <Button look="quiet" onPress={onRetry}>
            Try again
          </Button>
        </p>
      ) : null}
      {notes.length === 0 ? null : <p className="view-note">{notes.slice(0, 2).join(' ')}</p>}
    </>
  );
}

/** A ref for the element that holds the picture, its size in whole pixels, and the size of its text. */
function usePicture(): readonly [(element: Element | null) => (() => void) | undefined, PictureSize, number] {
  const [size, setSize] = useState<PictureSize>({ widthPx: 0, heightPx: 0 });
  const [textPx, setTextPx] = useState(16);
  const ref = useCallback((element: Element | null) => {
    if (element === null) return undefined;
    const observer = new ResizeObserver(([entry]) => {
      if (entry === undefined) return;
      const [widthPx, heightPx] = [Math.floor(entry.contentRect.width), Math.floor(entry.contentRect.height)];
      setSize((before) =>
        before.widthPx === widthPx && before.heightPx === heightPx ? before : { widthPx, heightPx },
      );
      setTextPx(Number.parseFloat(getComputedStyle(element).fontSize));
    });
    observer.observe(element);
    return () => observer.disconnect();
  }, []);
  return [ref, size, textPx];
}
