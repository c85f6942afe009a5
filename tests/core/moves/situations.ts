/** Situations at the bench with the move that a fabricator would pick, and why (common practice, written out). Millimetres and degrees. */

import type { MoveOptions } from '../../../core/moves/question.ts';

export interface Situation {
  readonly name: string;
  /** In short, see `piecesInShort`; tacked unless a letter says otherwise. */
  readonly pieces: string;
  /** How it should have been built, where its end is off the inlet; the inlet stands at this one's end. */
  readonly fitted?: string;
  /** Target less the length of the fitted one: above zero it is short. */
  readonly wantedMm?: number;
  readonly slipMm?: number;
  readonly options?: MoveOptions;
  readonly hasShelf?: boolean;
  /** On a full shelf of bends, the longest straight. */
  readonly remnantMm?: number;
  /** A wall square to x, this far from the port: nothing may come beyond it. */
  readonly wallAtMm?: number;
  /**
   * The first move: `+3` lengthen straight 3, `-3` shorten it, `x3` take it out, `n3` add one before piece 3, `c4` re-clock bend 4,
   * `a4` another angle, `s4` another CLR, `p4-2` two pies off, `out4` bend 4 out, `in4` a bend in before piece 4, `kick3`; `none` and the reason where there is nothing to offer.
   */
  readonly pick: string;
  readonly why: string;
}

const U = 'S100 B60/180/0 S100';
export const SPACE = 'S80 B76/90/0 S90 B76/60/90 S70 B76/45/-90 S100';

export const SITUATIONS: readonly Situation[] = [
  // Two legs that run against each other take length up without moving the end.
  { name: 'a U that is short', pieces: U, wantedMm: 20, pick: '+1 +3', why: 'both legs grow alike, and the end stays' },
  { name: 'a U that is long', pieces: U, wantedMm: -20, pick: '-1 -3', why: 'both legs are sawn, one joint each' },
  {
    name: 'a planned U',
    pieces: 'S100p B60/180/0p S100p',
    wantedMm: 20,
    pick: '+1 +3',
    why: 'on paper it costs nothing',
  },
  {
    name: 'two Us, the first leg welded',
    pieces: 'S100w B60/180/0 S100 B60/180/180 S100',
    wantedMm: 20,
    pick: '+3 +5',
    why: 'what is welded stays',
  },
  {
    name: 'two Us, the last leg welded',
    pieces: 'S100 B60/180/0 S100 B60/180/180 S100w',
    wantedMm: 20,
    pick: '+1 +3',
    why: 'what is welded stays',
  },
  {
    name: 'two Us, the first leg locked',
    pieces: 'S100! B60/180/0 S100 B60/180/180 S100',
    wantedMm: -20,
    pick: '-3 -5',
    why: 'a lock is kept to',
  },
  {
    name: 'two Us, the last leg planned',
    pieces: 'S100 B60/180/0 S100 B60/180/180 S100p',
    wantedMm: 20,
    pick: '+3 +5',
    why: 'a planned leg is not sawn anew',
  },
  {
    name: 'two Us, the first leg planned',
    pieces: 'S100p B60/180/0 S100 B60/180/180 S100',
    wantedMm: 20,
    pick: '+1 +3',
    why: 'a planned leg is not sawn anew',
  },
  {
    name: 'two Us, the middle and last leg planned',
    pieces: 'S100 B60/180/0 S100p B60/180/180p S100p',
    wantedMm: -30,
    pick: '-3 -5',
    why: 'nothing tacked is touched',
  },
  {
    name: 'two Us, the first leg planned but in the way of a wall',
    pieces: 'S100p B60/180/0 S100 B60/180/180 S100',
    wantedMm: 30,
    wallAtMm: 190,
    options: { clearanceKeptMm: 3 },
    pick: '+3 +5',
    why: 'more work is better than a tube in the wall',
  },
  {
    name: 'a loop, two of its sides planned',
    pieces: 'S100 B76/90/0 S120p B76/90/0 S100 B76/90/0 S120p',
    wantedMm: 16,
    pick: '+3 +7',
    why: 'planned sides first',
  },
  {
    name: 'a loop, the other two sides planned',
    pieces: 'S100p B76/90/0 S120 B76/90/0 S100p B76/90/0 S120',
    wantedMm: 16,
    pick: '+1 +5',
    why: 'planned sides first',
  },
  {
    name: 'a loop, two of its sides welded',
    pieces: 'S100 B76/90/0 S120w B76/90/0 S100 B76/90/0 S120w',
    wantedMm: -16,
    pick: '-1 -5',
    why: 'the sides that may be sawn',
  },
  {
    name: 'a loop, one side too short to give',
    pieces: 'S14 B76/90/0 S120 B76/90/0 S100 B76/90/0 S120',
    wantedMm: -16,
    pick: '-3 -7',
    why: 'no stub shorter than can be held and welded',
  },
  {
    name: 'a little short, and the collector has slip',
    pieces: 'S100 B76/90/0 S100',
    wantedMm: 5,
    slipMm: 10,
    pick: '+3',
    why: 'the end goes deeper into its inlet: one piece',
  },
  {
    name: 'a little long, and the collector has slip',
    pieces: 'S100 B76/90/0 S100',
    wantedMm: -5,
    slipMm: 10,
    pick: '-3',
    why: 'the end comes out a little: one cut',
  },
  {
    name: 'short within slip, the last piece planned',
    pieces: 'S100 B76/90/0 S100p',
    wantedMm: 5,
    slipMm: 10,
    pick: '+3',
    why: 'on paper it costs nothing',
  },
  {
    name: 'a U within slip',
    pieces: 'S100 B60/180/0 S100',
    wantedMm: 6,
    slipMm: 10,
    pick: '+3',
    why: 'one leg, not two: the inlet takes it',
  },
  {
    name: 'a loop within slip, all tacked',
    pieces: 'S100 B76/90/0 S120 B76/90/0 S100 B76/90/0 S120',
    wantedMm: 6,
    slipMm: 8,
    pick: '+7',
    why: 'the last piece alone',
  },
  {
    name: 'more than the slip gives',
    pieces: 'S100 B60/180/0 S100',
    wantedMm: 20,
    slipMm: 5,
    pick: '+1 +3',
    why: 'both legs, for the slip gives too little',
  },
  {
    name: 'a bend clocked wrong',
    pieces: 'S80 B76/90/0 S90 B76/60/82 S70 B76/45/-90 S100',
    fitted: SPACE,
    pick: 'c4',
    why: 'the one that is wrong is set right',
  },
  {
    name: 'the first bend clocked wrong',
    pieces: 'S80 B76/90/6 S90 B76/60/90 S70 B76/45/-90 S100',
    fitted: SPACE,
    pick: 'c2',
    why: 'turned at the port',
  },
  {
    name: 'the last bend clocked wrong',
    pieces: 'S80 B76/90/0 S90 B76/60/90 S70 B76/45/-97 S100',
    fitted: SPACE,
    pick: 'c6',
    why: 'turned at one joint',
  },
  {
    name: 'a bend with too many degrees',
    pieces: 'S80 B76/90/0 S90 B76/66/90 S70 B76/45/-90 S100',
    fitted: SPACE,
    pick: 'a4',
    why: 'a bend is cut down',
  },
  {
    name: 'a planned bend with too few degrees',
    pieces: 'S80 B76/90/0 S90 B76/54/90p S70 B76/45/-90 S100',
    fitted: SPACE,
    pick: 'a4',
    why: 'on paper it costs nothing',
  },
  {
    name: 'a bend with too few degrees, and the shelf has more',
    pieces: 'S80 B76/90/0 S90 B76/54/90 S70 B76/45/-90 S100',
    fitted: SPACE,
    hasShelf: true,
    pick: 'a4',
    why: 'replaced by one of the shelf',
  },
  {
    name: 'a straight cut too long',
    pieces: 'S80 B76/90/0 S104 B76/60/90 S70 B76/45/-90 S100',
    fitted: SPACE,
    pick: '-3',
    why: 'sawn to length, one joint',
  },
  {
    name: 'a straight cut too short',
    pieces: 'S80 B76/90/0 S76 B76/60/90 S70 B76/45/-90 S100',
    fitted: SPACE,
    pick: '+3',
    why: 'replaced by a longer one',
  },
  {
    name: 'the first straight too long',
    pieces: 'S90 B76/90/0 S90 B76/60/90 S70 B76/45/-90 S100',
    fitted: SPACE,
    pick: '-1',
    why: 'sawn to length, one joint',
  },
  {
    name: 'the last straight too short',
    pieces: 'S80 B76/90/0 S90 B76/60/90 S70 B76/45/-90 S88',
    fitted: SPACE,
    pick: '+7',
    why: 'replaced by a longer one',
  },
  {
    name: 'a planned straight too short',
    pieces: 'S80 B76/90/0 S76p B76/60/90 S70 B76/45/-90 S100',
    fitted: SPACE,
    pick: '+3',
    why: 'on paper it costs nothing',
  },
  {
    name: 'a bend of the wrong CLR',
    pieces: 'S80 B76/90/0 S90 B60/60/90 S70 B76/45/-90 S100',
    fitted: SPACE,
    hasShelf: true,
    pick: 's4',
    why: 'the right CLR is on the shelf',
  },
  {
    name: 'a straight left out',
    pieces: 'S80 B76/90/0 S90 B76/60/90 B76/45/-90 S100',
    fitted: SPACE,
    pick: 'n5',
    why: 'it goes in where it was meant to be',
  },
  {
    name: 'a straight too many',
    pieces: 'S80 B76/90/0 S90 B76/60/90 S70 B76/45/-90 S100 S30',
    fitted: SPACE,
    pick: 'x8',
    why: 'it comes out: one joint and no cut',
  },
  {
    name: 'a straight too many between two bends',
    pieces: 'S80 B76/90/0 S90 B76/60/90 S30 B76/45/-90 S100',
    fitted: 'S80 B76/90/0 S90 B76/60/90 B76/45/-90 S100',
    pick: 'x5',
    why: 'it comes out and the bends meet',
  },
  {
    name: 'a welded group tacked on askew',
    pieces: 'S80 B76/90/8 S90w B76/60/90w S70w B76/45/-90w S100w',
    fitted: SPACE,
    pick: 'c2',
    why: 'the group stays whole and turns at the bend before it',
  },
  {
    name: 'a locked bend in front of the wrong one',
    pieces: 'S80 B76/90/0! S90 B76/60/82 S70 B76/45/-90 S100',
    fitted: SPACE,
    pick: 'c4',
    why: 'the wrong one is free',
  },
  {
    name: 'two bends clocked wrong',
    pieces: 'S80 B76/90/0 S90 B76/60/82 S70 B76/45/-97 S100',
    fitted: SPACE,
    pick: 'c4 c6',
    why: 'both set right',
  },
  {
    name: 'a bend clocked wrong and the straight after it too long',
    pieces: 'S80 B76/90/0 S90 B76/60/82 S80 B76/45/-90 S100',
    fitted: SPACE,
    pick: 'c4 -5',
    why: 'both set right',
  },
  {
    name: 'a bend of too many degrees, and the straight after it too short',
    pieces: 'S80 B76/90/0 S90 B76/66/90 S60 B76/45/-90 S100',
    fitted: SPACE,
    pick: 'a4 +5',
    why: 'both set right',
  },
  {
    name: 'in the band and closed',
    pieces: 'S80 B76/90/0 S90 B76/60/90 S70 B76/45/-90 S100',
    wantedMm: 2,
    pick: 'none nothingToDo',
    why: 'leave it alone',
  },
  {
    name: 'a tube without a bend',
    pieces: 'S200 S100',
    wantedMm: 10,
    pick: 'kick1',
    why: 'a run without a bend takes length in a kick alone; the longest piece has room for it',
  },
  {
    name: 'all welded',
    pieces: 'S100w B60/180/0w S100w',
    wantedMm: 20,
    pick: 'none allHeld',
    why: 'nothing may be touched',
  },
  {
    name: 'one straight between two welded bends',
    pieces: 'B76/90/0w S300 B76/90/90',
    wantedMm: 12,
    pick: 'kick2',
    why: 'a kick is all that is left',
  },
  {
    name: 'one straight between two welded bends, and no new bends wanted',
    pieces: 'B76/90/0w S300 B76/90/90',
    wantedMm: 12,
    options: { kinds: ['straights', 'clockings', 'trims', 'swaps', 'lengthOnly'] },
    pick: 'none outOfReach',
    why: 'say so, and offer nothing else',
  },
];
