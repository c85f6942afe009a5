/** What the as-built check says, in words. */

import {
  type EndReach,
  formatAngle,
  formatLength,
  type JointReach,
  type LengthStyle,
  METHOD_WORDS,
  type MeasuredLength,
  type MeasureKind,
  readingSentence,
  readingVerdict,
  roundedTo,
  type ShopTolerances,
} from '../../core/index.ts';

export { METHOD_WORDS, readingSentence, readingVerdict };

/** What each method follows, for whoever reads the tape. */
export const METHOD_HINTS: Readonly<Record<MeasureKind, string>> = {
  outsideTape: 'Along each piece, round the outside of every bend; from one bend to the next, square round the tube.',
  centreline: 'Flange face to the end of the tube, kept to the middle in the bends.',
  filling: 'What the tube holds, over the area of its bore.',
};

/** The whole primary in a few words, by the reading that is furthest off. */
export function primaryVerdict(lengths: readonly MeasuredLength[], style: LengthStyle): string {
  const [first] = lengths;
  if (first === undefined) return 'not measured';
  const off = lengths.filter(({ verdict }) => verdict !== 'agrees');
  const worst = off.toSorted((a, b) => Math.abs(b.differenceMm) - Math.abs(a.differenceMm))[0];
  return worst === undefined ? 'agrees' : `${formatLength(Math.abs(worst.differenceMm), style)} ${worst.verdict}`;
}

/** `the likeliest, 93 %`, `4 %`; one that nothing else came near is not given a figure, and none of several is certain. */
export function shareWords(share: number, index: number): string {
  if (share === 1) return 'the only one that fits';
  const percent = `${Math.min(99, Math.max(1, Math.round(share * 100)))} %`;
  return index === 0 ? `the likeliest, ${percent}` : percent;
}

export function scatterWords({ scatter }: EndReach, style: LengthStyle): string {
  const { gapMm, alongMm, asideMm, tiltDeg } = scatter;
  const parts = `${formatLength(alongMm, style)} along the tube, ${formatLength(asideMm, style)} to the side, ${formatAngle(roundedTo(tiltDeg, 1))} of tilt`;
  return `Within the shop’s tolerances below, the end comes out about ${formatLength(gapMm, style)} from its place: ${parts} (root mean square).`;
}

/** `Watch the joint before piece 2: 1° of clocking moves the end 5/16", 1° of angle 1/4".` */
export function watchWords({ pieceIndex, clockingMm, angleMm, share }: JointReach, style: LengthStyle): string {
  const moves = `1° of clocking moves the end ${formatLength(clockingMm, style)}, 1° of angle ${formatLength(angleMm, style)}`;
  return `Watch the joint before piece ${pieceIndex + 1}: ${moves}. It makes ${Math.round(share * 100)} % of the scatter.`;
}

export function isSameTolerances(one: ShopTolerances, other: ShopTolerances): boolean {
  return (
    one.angleDeg === other.angleDeg &&
    one.clockingDeg === other.clockingDeg &&
    one.length.value === other.length.value &&
    one.length.unit === other.length.unit
  );
}
