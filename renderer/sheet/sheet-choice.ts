/** What is chosen on the sheets screen, and the drawing that it stands for. */

import { type Header, type Length, type Problem, primaryTitle } from '../../core/index.ts';
import { faultOf } from '../ui/words/fault.ts';
import type { Drawing } from './use-pages.ts';

export type StripKind = Extract<Drawing, { kind: 'strips' }>['strips']['kind'];
export type Cope = Omit<Extract<Extract<Drawing, { kind: 'strips' }>['strips'], { kind: 'cope' }>, 'kind'>;
export type Merge = Omit<Extract<Extract<Drawing, { kind: 'strips' }>['strips'], { kind: 'merge' }>, 'kind'>;
export type Plans = Extract<Drawing, { kind: 'sheet' }>['plans'];
export type BenchKind = Extract<Drawing, { kind: 'fixture' }>['bench']['kind'];
export type PlanKind = Extract<Drawing, { kind: 'fixture' }>['plan'];

export interface SheetChoice {
  readonly kind: Drawing['kind'];
  readonly strip: StripKind;
  readonly cope: Cope;
  readonly merge: Merge;
  readonly bench: BenchKind;
  readonly plan: PlanKind;
  /** Of the header's; the first where it is there no more. */
  readonly primaryId: string | null;
  readonly otherPrimaryId: string | null;
  readonly inletId: string | null;
}

/** The build sheet first; figures of cope and merge are those of the header's own tube. */
export function firstChoice({ settings, primaries }: Header): SheetChoice {
  const { od, wall } = settings.tube;
  const tubes = primaries.length <= 2 ? 2 : primaries.length === 3 ? 3 : 4;
  return {
    kind: 'sheet',
    strip: 'along',
    cope: {
      runOd: od,
      branchOd: od,
      branchWall: wall,
      angleDeg: 45,
      offset: { value: 0, unit: od.unit },
      cutTo: 'inside',
    },
    merge: { tubes, od, leanDeg: 10, outletOd: outletOf(od) },
    bench: 'flangeDown',
    plan: 'scaled',
    primaryId: null,
    otherPrimaryId: null,
    inletId: null,
  };
}

/** Wide enough for the flow of four such tubes by common practice, and narrower than two of them side by side. */
function outletOf({ value, unit }: Length): Length {
  const wanted = 1.6 * value;
  return { value: unit === 'in' ? Math.round(wanted * 8) / 8 : Math.round(wanted), unit };
}

export interface Named {
  readonly id: string;
  readonly name: string;
}

export function primaryChoices({ primaries }: Header): readonly Named[] {
  return primaries.map(({ id, name }) => ({ id, name: primaryTitle(name) }));
}

export function inletChoices({ collectors }: Header): readonly Named[] {
  return collectors.flatMap((collector) =>
    collector.inlets.map((inlet) => ({ id: inlet.id, name: `${collector.name}, inlet ${inlet.name}` })),
  );
}

/** The one that is chosen if it is still there, else the one at that place in the list; null for an empty list. */
export function chosenOf(list: readonly Named[], id: string | null, otherwise = 0): string | null {
  return list.find((one) => one.id === id)?.id ?? list[otherwise]?.id ?? list[0]?.id ?? null;
}

export type Chosen = { readonly drawing: Drawing } | { readonly missing: string };

const NO_PRIMARY = 'The header has no primary yet. Enter one on the bench.';
const NO_INLET = 'The header has no inlet yet. Enter one on the bench, in the panel Ports.';

/** `plans`: the header's cut plans that were carried out. */
export function drawingOf(header: Header, choice: SheetChoice, plans: Plans): Chosen {
  if (choice.kind === 'sheet') return { drawing: { kind: 'sheet', header, plans } };
  return choice.kind === 'strips' ? stripsOf(header, choice) : fixtureOf(header, choice);
}

/** The same, and what is wrong with the header on disk goes onto every page and file. */
export function markedDrawing(chosen: Chosen, damage: Problem | null): Chosen {
  if (damage === null || !('drawing' in chosen)) return chosen;
  return { drawing: { ...chosen.drawing, fault: faultOf(damage) } };
}

function stripsOf(header: Header, { strip, cope, merge, primaryId }: SheetChoice): Chosen {
  if (strip === 'cope') return { drawing: { kind: 'strips', header, strips: { kind: strip, ...cope } } };
  if (strip === 'merge') return { drawing: { kind: 'strips', header, strips: { kind: strip, ...merge } } };
  const id = chosenOf(primaryChoices(header), primaryId);
  if (id === null) return { missing: NO_PRIMARY };
  return { drawing: { kind: 'strips', header, strips: { kind: strip, primaryId: id } } };
}

function fixtureOf(header: Header, choice: SheetChoice): Chosen {
  const { bench: kind, plan } = choice;
  const primaries = primaryChoices(header);
  const primaryId = chosenOf(primaries, choice.primaryId);
  const inletId = chosenOf(inletChoices(header), choice.inletId);
  if (primaryId === null) return { missing: NO_PRIMARY };
  const fixture = { kind: 'fixture', header, plan } as const;
  if (kind === 'flangeDown') return { drawing: { ...fixture, bench: { kind, primaryId } } };
  if (inletId === null) return { missing: NO_INLET };
  if (kind === 'collectorDown') return { drawing: { ...fixture, bench: { kind, inletId } } };
  const primaryIdB = chosenOf(primaries, choice.otherPrimaryId, primaries.length - 1) ?? primaryId;
  return { drawing: { ...fixture, bench: { kind, primaryIdA: primaryId, primaryIdB, inletId } } };
}
