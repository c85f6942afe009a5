/** Why a bend cannot be told from a tape measure, as data. */

/** What was measured or given. */
export type BendMeasure = 'clr' | 'od' | 'outsideArc' | 'insideArc' | 'chord' | 'height';

export type LengthProblem =
  /** Zero, below zero or not a finite number. */
  | { readonly kind: 'measureNotPositive'; readonly measure: BendMeasure; readonly valueMm: number }
  /** Longer than any bend of this CLR allows. */
  | {
      readonly kind: 'measureTooLong';
      readonly measure: BendMeasure;
      readonly valueMm: number;
      readonly limitMm: number;
    }
  /** The tube's radius is not below the CLR, so that the bend has no inside arc to measure. */
  | { readonly kind: 'noInsideArc'; readonly clrMm: number; readonly odMm: number };
