/** Figures of pulses in words. */

import {
  type CollectorPulses,
  type Engine,
  firingIntervalsDeg,
  formatAngle,
  formatSignedAngle,
  isShownAsZero,
  type LengthStyle,
  type Pulse,
  roundedTo,
} from '../../core/index.ts';
import { primaryTitle, signedLength } from '../ui/words/verdict-words.ts';

/** `+45 µs`: to the microsecond. */
export function timeWords(seconds: number): string {
  const micros = Math.round(seconds * 1e6);
  if (micros === 0) return '0 µs';
  return `${micros < 0 ? '−' : '+'}${Math.abs(micros)} µs`;
}

export function lateDegreeWords(deg: number): string {
  return Math.abs(deg) < 0.05 ? '0°' : formatSignedAngle(roundedTo(deg, 1));
}

export function lengthOffWords(offMm: number, style: LengthStyle): string {
  return isShownAsZero(offMm, style) ? '0' : signedLength(offMm, style);
}

/** When a cylinder fires, and how far apart two do: to a tenth: seven cylinders are no whole degrees apart. */
export function degreeWords(deg: number): string {
  return formatAngle(roundedTo(deg, 1));
}

/** `°C`, `°F`, `K`. */
export function temperatureUnit({ unit }: Engine['gasTemperature']): string {
  return unit === 'K' ? unit : `°${unit}`;
}

/** `Fires every 180°.`, or for an engine that fires unevenly `Fires 315° 405° apart.` */
export function firesWords(engine: Pick<Engine, 'firingOrder' | 'firingIntervalsDeg'>): string {
  const words = firingIntervalsDeg(engine).map(degreeWords);
  return new Set(words).size === 1 ? `Fires every ${words[0]}.` : `Fires ${words.join(' ')} apart.`;
}

/** `180° each` where they are all alike to a tenth, else each in its order. */
function spacingList(spacings: readonly number[]): string {
  const words = spacings.map(degreeWords);
  return new Set(words).size === 1 ? `${words[0]} each` : words.join(' ');
}

/** Order and spacing of one collector, for whoever does not see the picture. */
export function collectorSentence({ pulses, equalSpacingsDeg, builtSpacingsDeg }: CollectorPulses): string {
  const order = pulses.map(({ name }) => primaryTitle(name)).join(', ');
  if (pulses.length < 2) return `${order} alone.`;
  return `${order}. Apart by ${spacingList(equalSpacingsDeg)} with equal lengths, ${spacingList(builtSpacingsDeg)} as built.`;
}

export function collectorTitle({ collectorId, name }: CollectorPulses, collectorCount: number): string {
  if (name !== null) return name;
  return collectorId === null && collectorCount === 1 ? 'All primaries' : 'Without a collector';
}

/** The one that comes furthest from where it would with equal lengths; null for none. */
export function furthestOff(pulses: readonly Pulse[]): Pulse | null {
  return pulses.toSorted((a, b) => Math.abs(b.lateDeg) - Math.abs(a.lateDeg))[0] ?? null;
}
