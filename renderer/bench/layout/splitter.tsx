/** The line between two parts of the bench that is dragged, or moved by arrow keys, to share the room otherwise. */

import { type KeyboardEvent, type PointerEvent, useRef } from 'react';
import { type BenchSizing, type SizedPart, showSize } from './bench-sizes.ts';

interface Props {
  /** The part whose size it changes. */
  readonly part: SizedPart;
  /** Of that part: "Width of the panel". */
  readonly label: string;
  /** Which way the part grows when the line is dragged. */
  readonly grows: 'right' | 'left' | 'down';
  /** The id of the part's element. */
  readonly controls: string;
  readonly sizing: BenchSizing;
}

/** Least sizes in CSS pixels: under these nothing in the part can be read. */
const LEAST_PX: Readonly<Record<SizedPart, number>> = { panel: 240, pieces: 320, board: 96 };
/** What the others keep of the window. */
const LEFT_PX = 320;
const KEY_STEP_PX = 16;

/** The size within what both sides need; whole pixels. */
export function boundedSize(part: SizedPart, px: number, windowPx: number): number {
  const most = Math.max(LEAST_PX[part], windowPx - LEFT_PX);
  return Math.round(Math.min(most, Math.max(LEAST_PX[part], px)));
}

/** Dragging: the page follows at once, and at its end the size is handed over. */
function useDrag({ part, grows, controls }: Props, settle: (px: number) => void) {
  const isRow = grows === 'down';
  const bound = (px: number) => boundedSize(part, px, isRow ? window.innerHeight : window.innerWidth);
  /** Where the drag began and how large the part was then; null while none is on. */
  const drag = useRef<{ readonly at: number; readonly px: number } | null>(null);
  const sizeNow = () => {
    const box = document.getElementById(controls)?.getBoundingClientRect();
    return (isRow ? box?.height : box?.width) ?? LEAST_PX[part];
  };
  const grownBy = (moved: number) => (grows === 'left' ? -moved : moved);
  const placeOf = (event: PointerEvent) => (isRow ? event.clientY : event.clientX);
  const draggedPx = (event: PointerEvent) =>
    drag.current === null ? null : bound(drag.current.px + grownBy(placeOf(event) - drag.current.at));
  const end = (event: PointerEvent) => {
    const px = draggedPx(event);
    const hasMoved = drag.current?.at !== placeOf(event);
    drag.current = null;
    if (px !== null && hasMoved) settle(px);
  };
  const handlers = {
    onPointerDown(event: PointerEvent<HTMLElement>) {
      if (event.button !== 0) return;
      event.currentTarget.setPointerCapture(event.pointerId);
      drag.current = { at: placeOf(event), px: sizeNow() };
    },
    onPointerMove(event: PointerEvent) {
      const px = draggedPx(event);
      if (px !== null) showSize(part, px);
    },
    onPointerUp: end,
    onPointerCancel: end,
  };
  return { handlers, growBy: (moved: number) => settle(bound(sizeNow() + grownBy(moved))) };
}

export function Splitter(props: Props) {
  const { part, label, grows, controls, sizing } = props;
  const isRow = grows === 'down';
  const settle = (px: number | null) => sizing.settle(part, px);
  const { handlers, growBy } = useDrag(props, settle);
  const onKeyDown = (event: KeyboardEvent) => {
    const [more, less] = isRow ? ['ArrowDown', 'ArrowUp'] : ['ArrowRight', 'ArrowLeft'];
    if (event.key === more) growBy(KEY_STEP_PX);
    else if (event.key === less) growBy(-KEY_STEP_PX);
    else if (event.key === 'Home') settle(LEAST_PX[part]);
    else return;
    event.preventDefault();
  };
  return (
    // biome-ignore lint/a11y/useSemanticElements: a thematic break cannot be dragged
    <div
      className="splitter screen-only"
      data-part={part}
      role="separator"
      tabIndex={0}
      aria-label={label}
      aria-controls={controls}
      aria-orientation={isRow ? 'horizontal' : 'vertical'}
      aria-valuenow={sizing.sizes[part] ?? LEAST_PX[part]}
      aria-valuemin={LEAST_PX[part]}
      title={`${label}: drag, or arrow keys; double-click for the usual size`}
      {...handlers}
      onDoubleClick={() => settle(null)}
      onKeyDown={onKeyDown}
    />
  );
}
