/** What can be typed for a piece and what it means: the same list beside the entry line and in Help. */

export interface EntryForm {
  readonly typed: string;
  readonly means: string;
}

export const ENTRY_FORMS: readonly EntryForm[] = [
  { typed: '2 1/4', means: 'a straight of 2 1/4 in the unit shown' },
  { typed: '57mm', means: 'a straight in the unit typed' },
  { typed: 'b90', means: 'a bend of 90°, with the CLR of the header' },
  { typed: 'b60 180', means: 'a bend of 60°, clocked 180° from the bend before it' },
  { typed: 'b60 -45 r4', means: 'clocked 45° the other way, with a CLR of 4' },
  { typed: 'p90x5 180', means: 'a pie-cut of 90° in 5 pies, clocked 180°' },
  { typed: '=', means: 'the piece before, once more' },
  { typed: 'b90; 2; b45 0', means: 'several pieces, in order' },
];
