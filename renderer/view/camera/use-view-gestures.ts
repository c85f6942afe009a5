/** Turning, moving and zooming the picture with a mouse, with fingers, with a pen and with keys. */

import { type KeyboardEvent, type PointerEvent, useEffect, useRef } from 'react';
import { cameraAfterKey, type PictureSize, panCamera, turnCamera, type ViewCamera, zoomCamera } from './view-camera.ts';

/** A hand's width of travel turns the header half round. */
const TURN_DEG_PER_PX = 0.4;
const WHEEL_ZOOM = 1.0015;
/** A press that moves less than this is a choice and not a turn. */
const CHOICE_PX = 5;
/** The middle and the right button, as `PointerEvent.buttons` counts them. */
const MOVING_BUTTONS = 4 | 2;

interface Place {
  readonly x: number;
  readonly y: number;
}

interface Reach {
  readonly camera: ViewCamera;
  readonly size: PictureSize;
  readonly onCamera: (camera: ViewCamera) => void;
  /** Told of a press in one place, in pixels of the picture. */
  readonly onChoose: (place: Place) => void;
}

export interface ViewGestures {
  readonly ref: (element: HTMLElement | null) => void;
  readonly onPointerDown: (event: PointerEvent<HTMLElement>) => void;
  readonly onPointerMove: (event: PointerEvent<HTMLElement>) => void;
  readonly onPointerUp: (event: PointerEvent<HTMLElement>) => void;
  readonly onPointerCancel: (event: PointerEvent<HTMLElement>) => void;
  readonly onKeyDown: (event: KeyboardEvent<HTMLElement>) => void;
}

/** One finger or the left button turns; two fingers move and zoom; Shift, the middle or the right button moves. */
export function useViewGestures(reach: Reach): ViewGestures {
  const latest = useRef(reach);
  latest.current = reach;
  const fingers = useRef(new Map<number, Place>());
  const travelled = useRef(0);
  const element = useRef<HTMLElement | null>(null);

  useWheel(element, latest);

  const lift = (event: PointerEvent<HTMLElement>) => {
    fingers.current.delete(event.pointerId);
  };

  return {
    ref: (found) => {
      element.current = found;
    },
    onPointerDown(event) {
      if (fingers.current.size === 0) travelled.current = 0;
      fingers.current.set(event.pointerId, placeOf(event));
      event.currentTarget.setPointerCapture(event.pointerId);
    },
    onPointerMove(event) {
      const before = fingers.current.get(event.pointerId);
      if (before === undefined) return;
      const now = placeOf(event);
      const [other] = [...fingers.current].flatMap(([id, place]) => (id === event.pointerId ? [] : [place]));
      fingers.current.set(event.pointerId, now);
      travelled.current += Math.hypot(now.x - before.x, now.y - before.y);
      const { camera, size, onCamera } = latest.current;
      const next = other
        ? pinched(camera, size, { before, now, other })
        : dragged(camera, size, { before, now, isPan: event.shiftKey || (event.buttons & MOVING_BUTTONS) !== 0 });
      // A second event may come before the next drawing; it goes on from this one's camera.
      latest.current = { ...latest.current, camera: next };
      onCamera(next);
    },
    onPointerUp(event) {
      const isChoice = travelled.current < CHOICE_PX && fingers.current.size === 1 && event.button === 0;
      lift(event);
      if (isChoice) latest.current.onChoose(placeOf(event));
    },
    onPointerCancel: lift,
    onKeyDown: (event) => keyDown(event, latest.current),
  };
}

function keyDown(event: KeyboardEvent<HTMLElement>, { camera, onCamera }: Reach): void {
  if (event.ctrlKey || event.altKey || event.metaKey) return;
  const next = cameraAfterKey(camera, { key: event.key, shift: event.shiftKey });
  if (next === null) return;
  event.preventDefault();
  event.stopPropagation();
  onCamera(next);
}

function placeOf(event: PointerEvent<HTMLElement>): Place {
  const box = event.currentTarget.getBoundingClientRect();
  return { x: event.clientX - box.left, y: event.clientY - box.top };
}

/** The page must not scroll under the wheel, which only a listener of one's own can prevent. */
function useWheel(element: { readonly current: HTMLElement | null }, latest: { readonly current: Reach }): void {
  useEffect(() => {
    const target = element.current;
    const onWheel = (event: WheelEvent) => {
      event.preventDefault();
      const { camera, onCamera } = latest.current;
      onCamera(zoomCamera(camera, WHEEL_ZOOM ** -event.deltaY));
    };
    target?.addEventListener('wheel', onWheel, { passive: false });
    return () => target?.removeEventListener('wheel', onWheel);
  }, [element, latest]);
}

function dragged(
  camera: ViewCamera,
  { heightPx }: PictureSize,
  { before, now, isPan }: { readonly before: Place; readonly now: Place; readonly isPan: boolean },
): ViewCamera {
  const [dx, dy] = [now.x - before.x, now.y - before.y];
  if (isPan) return panCamera(camera, { right: dx / heightPx, up: -dy / heightPx });
  return turnCamera(camera, { around: -dx * TURN_DEG_PER_PX, over: dy * TURN_DEG_PER_PX });
}

function pinched(
  camera: ViewCamera,
  { heightPx }: PictureSize,
  { before, now, other }: { readonly before: Place; readonly now: Place; readonly other: Place },
): ViewCamera {
  const apart = (place: Place) => Math.max(1, Math.hypot(place.x - other.x, place.y - other.y));
  const moved = panCamera(camera, { right: (now.x - before.x) / 2 / heightPx, up: -(now.y - before.y) / 2 / heightPx });
  return zoomCamera(moved, apart(now) / apart(before));
}
