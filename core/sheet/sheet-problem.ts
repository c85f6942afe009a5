/** Why a strip or a fixture sheet cannot be made, as data. */

/** A figure of a strip. */
export type StripField = 'runOd' | 'branchOd' | 'tubeOd' | 'angle' | 'lean';

export type StripProblem =
  /** The branch, with its offset, reaches past the side of the run: part of it would meet nothing. */
  | { readonly kind: 'copePastRun'; readonly branchMm: number; readonly runMm: number; readonly offsetMm: number }
  /** A figure that is not from low to high; mm or degrees. */
  | {
      readonly kind: 'stripFigure';
      readonly field: StripField;
      readonly value: number;
      readonly low: number;
      readonly high: number;
    }
  /** The wall leaves nothing of the tube. */
  | { readonly kind: 'stripWall'; readonly odMm: number; readonly wallMm: number }
  /** Two cuts of a pie-cut bend run into each other on the inside. */
  | { readonly kind: 'piesCross'; readonly throatMm: number }
  /** In true size it would take more pages than anybody tapes together. */
  | { readonly kind: 'stripTooLarge'; readonly name: string; readonly widthMm: number; readonly heightMm: number }
  /** The outlet is smaller than one tube, or no smaller than the bundle. */
  | { readonly kind: 'mergeOutlet'; readonly outletMm: number; readonly lowMm: number; readonly highMm: number };

export type FixtureProblem =
  /** The three places that are to carry the header lie in one line, which carries nothing. */
  { readonly kind: 'placesInLine' };

export type SheetProblem = StripProblem | FixtureProblem;
