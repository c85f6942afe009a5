/**
 * Moves by a search apart from the program's: every set of up to four changes in order of price, then random sets of up to eight, each
 * by least squares from several starts.
 */

import type { Header, Piece, Primary } from '../../core/header/header.ts';
import { mmOf } from '../../core/units/length.ts';
import { isHeldJoint } from '../core/moves/joints-by-hand.ts';
import { seededRandom } from '../core/path/made-primaries.ts';
import { fitted } from './least-squares.ts';
import { type Knob, WideTube } from './wide-tube.ts';

export interface WideMove {
  readonly joints: number;
  readonly cuts: number;
  /** Told for a reader: kind, piece, and by how much (mm or degrees). */
  readonly changes: readonly string[];
}

const RADIANS = Math.PI / 180;
const LARGEST_SET = 4;
const RANDOM_SETS = 600;
const LARGEST_RANDOM_SET = 8;

/** The cheapest that is found for the header's one primary, by joints to be made and then by cuts; null when nothing is. */
export function wideMove(header: Header): WideMove | null {
  const [primary] = header.primaries;
  if (primary === undefined) throw new Error('No primary');
  const search = new WideSearch(header, primary);
  return search.inOrderOfPrice() ?? search.amongRandomSets();
}

interface Priced {
  readonly knobs: readonly Knob[];
  readonly price: number;
}

class WideSearch {
  private readonly pieces: readonly Piece[];
  private readonly tube: WideTube;
  private readonly knobs: readonly Knob[];
  private readonly random = seededRandom(4711);
  private best: WideMove | null = null;
  private bestPrice = Number.POSITIVE_INFINITY;

  constructor(header: Header, primary: Primary) {
    this.pieces = primary.pieces;
    this.tube = new WideTube(header, primary);
    this.knobs = knobsOf(primary.pieces, mmOf(header.settings.shortestStraight));
  }

  inOrderOfPrice(): WideMove | null {
    const sets: Priced[] = [];
    const add = (chosen: readonly Knob[], from: number) => {
      for (let next = from; next < this.knobs.length; next += 1) {
        const knob = this.knobs[next] as Knob;
        if (chosen.some((other) => other.at === knob.at && isOneThing(other, knob))) continue;
        const knobs = [...chosen, knob];
        // Nothing costs less than with every piece that is cut made shorter.
        const price = this.priceOf(knobs, () => -1);
        if (price < Number.POSITIVE_INFINITY) sets.push({ knobs, price });
        if (knobs.length < LARGEST_SET) add(knobs, next + 1);
      }
    };
    add([], 0);
    sets.sort((a, b) => a.price - b.price || a.knobs.length - b.knobs.length);
    for (const { knobs, price } of sets) {
      if (price >= this.bestPrice) break;
      for (const start of this.startsOf(knobs)) this.tryFrom(knobs, start);
    }
    return this.best;
  }

  amongRandomSets(): WideMove | null {
    const { random } = this;
    for (let set = 0; set < RANDOM_SETS; set += 1) {
      const size = 5 + Math.floor(random() * (LARGEST_RANDOM_SET - 4));
      const knobs: Knob[] = [];
      for (let draw = 0; draw < 40 && knobs.length < size; draw += 1) {
        const knob = this.knobs[Math.floor(random() * this.knobs.length)] as Knob;
        if (!knobs.some((other) => other.at === knob.at && (other === knob || isOneThing(other, knob))))
          knobs.push(knob);
      }
      knobs.sort((a, b) => a.at - b.at);
      if (this.priceOf(knobs, () => -1) < this.bestPrice) this.tryFrom(knobs, strewn(knobs, set % 2, random));
    }
    return this.best;
  }

  /** As it lies; and strewn, for turns that are not found from there. */
  private startsOf(knobs: readonly Knob[]): readonly (readonly number[])[] {
    const zero = knobs.map(({ low }) => Math.max(0, low));
    const clockings = knobs.filter(({ kind }) => kind === 'clocking').length;
    if (clockings === 0) return [zero];
    if (knobs.length > 2) return [zero, strewn(knobs, 1, this.random), strewn(knobs, 1, this.random)];
    const turns = [0, 60, 120, 180, 240, 300].map((deg) => deg * RADIANS);
    let starts: readonly (readonly number[])[] = [[]];
    for (const { kind, low } of knobs) {
      const own = kind === 'clocking' ? turns : [Math.max(0, low)];
      starts = starts.flatMap((start) => own.map((value) => [...start, value]));
    }
    return starts;
  }

  private tryFrom(knobs: readonly Knob[], start: readonly number[]): void {
    const values = fitted(
      {
        misses: (at, left) => this.tube.misses(knobs, at, left),
        rows: 6,
        low: knobs.map(({ low }) => low),
        high: knobs.map(({ high }) => high),
        steps: knobs.map(({ kind }) => (kind === 'clocking' || kind === 'angle' ? 1e-6 : 1e-4)),
        isMet: WideTube.isMet,
      },
      start,
    );
    if (values === null) return;
    const price = this.priceOf(knobs, (i) => values[i] as number);
    if (price >= this.bestPrice) return;
    this.bestPrice = price;
    const changes = knobs.map(({ kind, at }, i) => {
      const value = values[i] as number;
      const shown = kind === 'clocking' || kind === 'angle' ? value / RADIANS : value;
      return `${kind} ${at} ${shown.toFixed(2)}`;
    });
    this.best = { joints: Math.floor(price / CUTS), cuts: price % CUTS, changes };
  }

  /** Joints and cuts in one number; infinite where a weld would have to be broken. */
  private priceOf(knobs: readonly Knob[], valueAt: (i: number) => number): number {
    const forced = new Set<number>();
    const choices: (readonly number[])[] = [];
    let [more, cuts] = [0, 0];
    for (const [i, { kind, at }] of knobs.entries()) {
      const isCut = kind === 'length' || kind === 'angle';
      if (kind === 'letIn' || (isCut && this.pieces[at]?.state !== 'planned')) cuts += 1;
      if (kind === 'letIn') {
        forced.add(at);
        more += 1;
      } else if (kind === 'gone' || (isCut && valueAt(i) > 0)) {
        forced.add(at).add(at + 1);
        if (kind === 'gone' && [at, at + 1].some((joint) => isHeldJoint(this.pieces, joint))) more -= 1;
      } else choices.push(kind === 'clocking' ? this.turningJoints(at) : [at, at + 1]);
    }
    const opened = [...forced].filter((joint) => isHeldJoint(this.pieces, joint));
    if (opened.some((joint) => this.isWeld(joint))) return Number.POSITIVE_INFINITY;
    const joints = this.fewest(choices, new Set(opened));
    return joints === Number.POSITIVE_INFINITY ? joints : (joints + more) * CUTS + cuts;
  }

  /** Joints opened in all, by trying every joint that meets the first choice that is not met yet. */
  private fewest(choices: readonly (readonly number[])[], opened: ReadonlySet<number>): number {
    const unmet = choices.find((list) => list.every((joint) => isHeldJoint(this.pieces, joint) && !opened.has(joint)));
    if (unmet === undefined) return opened.size;
    let least = Number.POSITIVE_INFINITY;
    for (const joint of unmet) {
      if (!this.isWeld(joint)) least = Math.min(least, this.fewest(choices, new Set(opened).add(joint)));
    }
    return least;
  }

  private turningJoints(at: number): readonly number[] {
    const joints = [at];
    for (let joint = at; joint > 0 && this.pieces[joint - 1]?.kind === 'straight'; joint -= 1) joints.push(joint - 1);
    return joints;
  }

  private isWeld(joint: number): boolean {
    const before = this.pieces[joint - 1] ?? this.pieces[joint];
    return before?.state === 'welded' && this.pieces[joint]?.state === 'welded';
  }
}

const CUTS = 1000;

/** Length and gone are of one piece; clocking and angle of one bend are two things. */
function isOneThing(a: Knob, b: Knob): boolean {
  const isStraight = ({ kind }: Knob) => kind === 'length' || kind === 'gone';
  return a.kind === b.kind || (isStraight(a) && isStraight(b));
}

function strewn(knobs: readonly Knob[], share: number, random: () => number): readonly number[] {
  return knobs.map(({ kind, low, high }) => {
    const reach = kind === 'clocking' ? Math.PI : kind === 'angle' ? 0.6 : 50;
    return Math.min(high, Math.max(low, Math.max(0, low) + share * (2 * random() - 1) * reach));
  });
}

/** Without a shelf: bends are only cut down, but for planned ones, which are not cut yet. */
function knobsOf(pieces: readonly Piece[], shortestMm: number): readonly Knob[] {
  const isHeld = (at: number) => pieces[at]?.locked === true || pieces[at]?.state === 'welded';
  const knobs: Knob[] = [];
  for (let at = 0; at <= pieces.length; at += 1) {
    const isNoStraight = (index: number) => pieces[index]?.kind !== 'straight' || isHeld(index);
    if (isNoStraight(at - 1) && isNoStraight(at)) knobs.push({ kind: 'letIn', at, low: shortestMm, high: 1000 });
    const piece = pieces[at];
    if (piece === undefined) break;
    if (piece.kind !== 'straight' && !piece.locked) knobs.push({ kind: 'clocking', at, low: -20, high: 20 });
    if (isHeld(at)) continue;
    if (piece.kind === 'straight') {
      const mm = mmOf(piece.length);
      knobs.push({ kind: 'length', at, low: Math.min(0, shortestMm - mm), high: 1000 });
      if (pieces.length > 1) knobs.push({ kind: 'gone', at, low: -mm, high: -mm });
    } else if (piece.kind === 'bend') {
      const most = piece.state === 'planned' ? 180 : piece.angleDeg;
      knobs.push({ kind: 'angle', at, low: (2 - piece.angleDeg) * RADIANS, high: (most - piece.angleDeg) * RADIANS });
    }
  }
  return knobs;
}
