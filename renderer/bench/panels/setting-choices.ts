/** What can be chosen for the target and for showing lengths, and how a choice becomes a setting. */

import { type LengthStyle, type LengthUnit, type MatchReport, roundTarget, type Target } from '../../../core/index.ts';

export type TargetChoice = 'longest' | 'mean' | 'typed' | 'tuned' | `primary:${string}`;

export const TARGET_CHOICES: readonly { readonly id: TargetChoice; readonly name: string }[] = [
  { id: 'longest', name: 'The longest primary' },
  { id: 'mean', name: 'The mean' },
  { id: 'typed', name: 'A typed length' },
  { id: 'tuned', name: 'Tuned starting point' },
];

interface TargetContext {
  readonly report: MatchReport;
  readonly unit: LengthUnit;
  readonly before: Target;
}

/** A typed target starts from the one in force, and then no longer goes by a formula. A tuned one is worked out, not chosen here. */
export function targetOf(choice: Exclude<TargetChoice, 'tuned'>, { report, unit, before }: TargetContext): Target {
  switch (choice) {
    case 'longest':
    case 'mean':
      return { kind: choice };
    case 'typed':
      return before.kind === 'typed'
        ? { kind: 'typed', length: before.length }
        : { kind: 'typed', length: roundTarget(report, unit) };
    default:
      return { kind: 'primary', primaryId: choice.slice('primary:'.length) };
  }
}

export type DisplayChoice = (typeof DISPLAY_CHOICES)[number]['id'];

export const DISPLAY_CHOICES = [
  { id: 'in8', name: 'inch, 1/8', style: { kind: 'fraction', per: 8 } },
  { id: 'in16', name: 'inch, 1/16', style: { kind: 'fraction', per: 16 } },
  { id: 'in32', name: 'inch, 1/32', style: { kind: 'fraction', per: 32 } },
  { id: 'in64', name: 'inch, 1/64', style: { kind: 'fraction', per: 64 } },
  { id: 'dec2', name: 'inch, 0.01', style: { kind: 'decimalInch', places: 2 } },
  { id: 'dec3', name: 'inch, 0.001', style: { kind: 'decimalInch', places: 3 } },
  { id: 'dec4', name: 'inch, 0.0001', style: { kind: 'decimalInch', places: 4 } },
  { id: 'mm0', name: 'mm', style: { kind: 'mm', places: 0 } },
  { id: 'mm1', name: 'mm, 0.1', style: { kind: 'mm', places: 1 } },
  { id: 'mm2', name: 'mm, 0.01', style: { kind: 'mm', places: 2 } },
] as const satisfies readonly { readonly id: string; readonly name: string; readonly style: LengthStyle }[];

export function displayChoice(style: LengthStyle): DisplayChoice {
  const fineness = style.kind === 'fraction' ? style.per : style.places;
  const found = DISPLAY_CHOICES.find(
    (choice) =>
      choice.style.kind === style.kind && ('per' in choice.style ? choice.style.per : choice.style.places) === fineness,
  );
  return found?.id ?? 'in16';
}
