/** A dial for a clocking: seen from the port along the tube, 0 at the top, clockwise positive. */

import { type PointerEvent, useEffect, useRef, useState } from 'react';
import { formatAngle, radiansOf } from '../../../core/index.ts';
import { clockingAfterKey, clockingAtPlace } from './dial-steps.ts';
import './clocking-dial.css';

interface Props {
  readonly label: string;
  readonly clockingDeg: number;
  /** Told once a turn has come to rest, so that it is one step to undo. */
  readonly onSettle: (clockingDeg: number) => void;
}

const SIZE = 224;
const MIDDLE = SIZE / 2;
const RADIUS = 78;
const TICKS_DEG = Array.from({ length: 24 }, (_, index) => index * 15);
/** Keys pressed within this time are one turn. */
const REST_MS = 700;

/** The clocking shown while the dial is turned; a turn comes to rest when it is let go, or when no key has followed for a moment. */
function useTurning(clockingDeg: number, onSettle: (clockingDeg: number) => void) {
  /** Null while the dial stands as stored. */
  const [turned, turn] = useState<number | null>(null);
  const settle = useRef(onSettle);
  settle.current = onSettle;
  const isHeld = useRef(false);
  useEffect(() => {
    if (turned === null || isHeld.current) return undefined;
    const timer = setTimeout(() => {
      turn(null);
      settle.current(turned);
    }, REST_MS);
    return () => clearTimeout(timer);
  }, [turned]);
  const rest = () => {
    isHeld.current = false;
    if (turned === null) return;
    turn(null);
    settle.current(turned);
  };
  return { shown: turned ?? clockingDeg, turn, isHeld, rest };
}

export function ClockingDial({ label, clockingDeg, onSettle }: Props) {
  const { shown, turn, isHeld, rest } = useTurning(clockingDeg, onSettle);
  const turnTo = (event: PointerEvent<HTMLElement>) => {
    const box = event.currentTarget.getBoundingClientRect();
    turn(clockingAtPlace(event.clientX - box.left - box.width / 2, event.clientY - box.top - box.height / 2));
  };
  return (
    <div
      className="clocking-dial"
      role="slider"
      tabIndex={0}
      aria-label={label}
      aria-valuemin={-180}
      aria-valuemax={180}
      aria-valuenow={shown}
      aria-valuetext={formatAngle(shown)}
      onKeyDown={(event) => {
        const next = clockingAfterKey(shown, event.key, event.shiftKey);
        if (event.key === 'Enter') rest();
        if (next === null || event.ctrlKey || event.altKey || event.metaKey) return;
        event.preventDefault();
        event.stopPropagation();
        turn(next);
      }}
      onBlur={rest}
      onPointerDown={(event) => {
        event.currentTarget.setPointerCapture(event.pointerId);
        isHeld.current = true;
        turnTo(event);
      }}
      onPointerMove={(event) => {
        if (isHeld.current) turnTo(event);
      }}
      onPointerUp={rest}
      onPointerCancel={rest}
    >
      <DialFace clockingDeg={shown} />
    </div>
  );
}

/** The still picture of a dial. */
export function DialFace({ clockingDeg }: { readonly clockingDeg: number }) {
  const place = (deg: number, radius: number) => ({
    x: MIDDLE + radius * Math.sin(radiansOf(deg)),
    y: MIDDLE - radius * Math.cos(radiansOf(deg)),
  });
  const hand = place(clockingDeg, RADIUS);
  const end = place(clockingDeg, RADIUS * 0.6);
  const isLarge = Math.abs(clockingDeg) > 180 ? 1 : 0;
  return (
    <svg viewBox={`0 0 ${SIZE} ${SIZE}`} aria-hidden="true">
      <circle cx={MIDDLE} cy={MIDDLE} r={RADIUS} className="dial-face" />
      {TICKS_DEG.map((deg) => {
        const [from, to] = [place(deg, deg % 45 === 0 ? RADIUS - 12 : RADIUS - 6), place(deg, RADIUS)];
        return <line key={deg} x1={from.x} y1={from.y} x2={to.x} y2={to.y} className="dial-tick" />;
      })}
      <text x={MIDDLE} y={20} className="dial-number">
        0
      </text>
      <text x={SIZE - 15} y={MIDDLE} className="dial-number">
        90
      </text>
      <text x={MIDDLE} y={SIZE - 18} className="dial-number">
        180
      </text>
      <text x={15} y={MIDDLE} className="dial-number">
        −90
      </text>
      <path
        d={`M${MIDDLE} ${MIDDLE - RADIUS * 0.6}A${RADIUS * 0.6} ${RADIUS * 0.6} 0 ${isLarge} ${clockingDeg < 0 ? 0 : 1} ${end.x} ${end.y}`}
        className="dial-sweep"
      />
      <line x1={MIDDLE} y1={MIDDLE} x2={hand.x} y2={hand.y} className="dial-hand" />
      <circle cx={hand.x} cy={hand.y} r={7} className="dial-knob" />
    </svg>
  );
}
