/** Why a typed length or angle could not be read, as data. */

export type UnitsProblem = {
  readonly kind: 'unreadableLength' | 'unreadableAngle';
  /** What was typed, cut to 64 characters. */
  readonly text: string;
  readonly reason:
    | 'empty'
    | 'tooLong'
    | 'notANumber'
    | 'noDenominator'
    | 'noNumerator'
    | 'zeroDenominator'
    | 'improperFraction'
    | 'decimalComma'
    | 'unknownUnit'
    | 'leftover'
    | 'fractionOfMillimetre'
    | 'inchesPastAFoot'
    | 'negative'
    | 'outOfRange';
  /** The piece of text at fault, for the sentence. */
  readonly part: string;
};
