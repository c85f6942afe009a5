/** The picture in space: a canvas that three.js draws on, with names and figures over it. */

import { useEffect, useLayoutEffect, useMemo, useRef, useState } from 'react';
import { AnnotationMarks, AxesMark } from '../annotations/annotation-layer.tsx';
import { annotate } from '../annotations/annotations.ts';
import { CORNER_TEXTS } from '../annotations/labels.ts';
import { useViewGestures } from '../camera/use-view-gestures.ts';
import type { PictureSize, ViewCamera } from '../camera/view-camera.ts';
import type { Scene } from '../scene/scene.ts';
import type { SectionCut } from '../scene/section-cut.ts';
import { HeaderView, type PickedPiece, type ViewCounts } from './header-view.ts';
import { onLookChange, readColours, type ViewColours } from './view-colours.ts';

interface Props {
  readonly scene: Scene;
  readonly camera: ViewCamera;
  readonly section: SectionCut | null;
  readonly size: PictureSize;
  readonly textPx: number;
  readonly label: string;
  readonly onCamera: (camera: ViewCamera) => void;
  readonly onPick: (piece: PickedPiece) => void;
  /** WebGL cannot be had, or has gone away. */
  readonly onLost: () => void;
}

export function SolidView({ scene, camera, section, size, textPx, label, onCamera, onPick, onLost }: Props) {
  const place = useRef<HTMLDivElement>(null);
  const view = useRef<HeaderView | null>(null);
  const colours = useColours(place);
  const gestures = useViewGestures({
    camera,
    size,
    onCamera,
    onChoose: ({ x, y }) => {
      const picked = view.current?.pick(x, y) ?? null;
      if (picked !== null) onPick(picked);
    },
  });
  const [hoveredId, hover] = useHover((x, y) => view.current?.pick(x, y)?.primaryId ?? null);
  useHeaderView(place, view, onLost);
  useLayoutEffect(() => {
    if (view.current === null || colours === null || place.current === null) return;
    view.current.update({ scene, camera, section, size, colours });
    showCounts(place.current, view.current.counts);
  }, [scene, camera, section, size, colours]);
  const annotations = useMemo(
    () => annotate(scene, { camera, size, textPx, section, labelled: { hoveredId } }),
    [scene, camera, size, textPx, section, hoveredId],
  );
  const cornerPx = CORNER_TEXTS * textPx;
  return (
    <div
      className="solid-view"
      role="application"
      aria-label={label}
      // biome-ignore lint/a11y/noNoninteractiveTabindex: the picture is turned with the arrow keys
      tabIndex={0}
      {...gestures}
      {...hover(gestures.onPointerMove)}
    >
      <div ref={place} className="solid-canvas" />
      <svg aria-hidden="true" width={size.widthPx} height={size.heightPx}>
        <AnnotationMarks annotations={annotations} textPx={textPx} />
      </svg>
      {/* Apart from the rest: what is drawn over the picture costs by the area that it spans. */}
      <svg className="view-corner" aria-hidden="true" width={cornerPx} height={cornerPx}>
        <AxesMark axes={annotations.axes} size={{ widthPx: cornerPx, heightPx: cornerPx }} textPx={textPx} />
      </svg>
    </div>
  );
}

type PointerMove = ReturnType<typeof useViewGestures>['onPointerMove'];

/** The primary under a pointer that only looks; found once a frame at most. */
function useHover(primaryAt: (xPx: number, yPx: number) => string | null) {
  const [hoveredId, setHoveredId] = useState<string | null>(null);
  const waiting = useRef(0);
  const at = useRef(primaryAt);
  at.current = primaryAt;
  useEffect(() => () => cancelAnimationFrame(waiting.current), []);
  const handlers = (onPointerMove: PointerMove) => ({
    onPointerMove(event: Parameters<PointerMove>[0]) {
      onPointerMove(event);
      if (event.buttons !== 0 || event.pointerType === 'touch') return;
      const box = event.currentTarget.getBoundingClientRect();
      const [x, y] = [event.clientX - box.left, event.clientY - box.top];
      cancelAnimationFrame(waiting.current);
      waiting.current = requestAnimationFrame(() => setHoveredId(at.current(x, y)));
    },
    onPointerLeave() {
      cancelAnimationFrame(waiting.current);
      setHoveredId(null);
    },
  });
  return [hoveredId, handlers] as const;
}

/** Waits for the next header: a drawing context takes longer to make than all that is drawn with it. */
let parked: HeaderView | null = null;

function takeView(onLost: () => void): HeaderView {
  const view = parked ?? new HeaderView(document.createElement('canvas'), onLost);
  parked = null;
  view.onLost = onLost;
  return view;
}

/** Puts the view in its place before the first layout effect that shows anything in it, and takes it away again. */
function useHeaderView(
  place: { readonly current: HTMLElement | null },
  view: { current: HeaderView | null },
  onLost: () => void,
): void {
  const lost = useRef(onLost);
  lost.current = onLost;
  useLayoutEffect(() => {
    const holder = place.current;
    let isLost = false;
    const lose = () => {
      isLost = true;
      lost.current();
    };
    try {
      view.current = takeView(lose);
      holder?.append(view.current.canvas);
    } catch {
      // Three throws where the browser gives no context; the flat views say the same things.
      lose();
    }
    return () => {
      const used = view.current;
      view.current = null;
      if (used === null) return;
      used.canvas.remove();
      const left = used.clear();
      // One whose context has gone away can never be drawn on again.
      if (isLost || parked !== null) used.dispose();
      else parked = used;
      if (holder !== null) showCounts(holder, left);
    };
  }, [place, view]);
}

/** Null until the place is there; a new object whenever the look of the page changes. */
function useColours(place: { readonly current: HTMLElement | null }): ViewColours | null {
  const [colours, setColours] = useState<ViewColours | null>(null);
  useEffect(() => {
    const read = () => {
      if (place.current !== null) setColours(readColours(place.current));
    };
    read();
    return onLookChange(read);
  }, [place]);
  return colours;
}

/** For whoever measures: how often the picture was drawn, and what the renderer holds. */
function showCounts(place: HTMLElement, { frames, geometries, textures }: ViewCounts): void {
  Object.assign(place.dataset, { frames, geometries, textures });
}
