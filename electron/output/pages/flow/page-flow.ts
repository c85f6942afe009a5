/** Pages filled from the top down: what does not fit goes onto the next, under the same running head. */

import type { Page, PageMark } from '../../../bridge/page-messages.ts';
import { block, line, type Point, words } from '../marks.ts';
import { MARGIN_MM, type Paper, printedWidthMm } from '../paper.ts';
import type { Typeface } from '../typeface.ts';
import { LINE_RATIO, type LineRoom, textLines } from './text-lines.ts';

export interface RunningHead {
  /** The header's name, whole on every page. */
  readonly name: string;
  /** What is wrong with the header, below its name on every page; null: nothing. */
  readonly fault: string | null;
  /** "Build sheet". */
  readonly title: string;
  /** At the foot of every page. */
  readonly foot: string;
}

const HEAD_MM = 3.4;
const FOOT_MM = 2.8;
const FAULT_MM = 3.6;
const FAULT_INSET_MM = 2;
/** From the foot of the page's words to the text above. */
const FOOT_ROOM_MM = 6;

interface OpenPage {
  readonly marks: PageMark[];
}

export class PageFlow {
  readonly paper: Paper;
  readonly typeface: Typeface;
  readonly widthMm: number;
  /** Height of the next line's upper edge on the page in hand, mm from the top. */
  yMm = 0;
  readonly #head: RunningHead;
  readonly #pages: OpenPage[] = [];
  readonly #tail: readonly PageMark[];
  readonly #tailMm: number;
  /** How many marks the running head of the page in hand has. */
  #freshMarks = 0;

  /** @param tail drawn at the foot of every page, above its last line, and so high */
  constructor(
    paper: Paper,
    typeface: Typeface,
    head: RunningHead,
    tail: { readonly heightMm: number; readonly marks: (topMm: number) => readonly PageMark[] } | null = null,
  ) {
    this.paper = paper;
    this.typeface = typeface;
    this.widthMm = printedWidthMm(paper);
    this.#head = head;
    this.#tailMm = tail?.heightMm ?? 0;
    this.#tail = tail?.marks(this.bottomMm) ?? [];
    this.newPage();
  }

  /** Where text must end, mm from the top. */
  get bottomMm(): number {
    return this.paper.heightMm - MARGIN_MM - FOOT_ROOM_MM - this.#tailMm;
  }

  get leftMm(): number {
    return MARGIN_MM;
  }

  /** What is free below on the page in hand. */
  get roomMm(): number {
    return this.bottomMm - this.yMm;
  }

  newPage(): void {
    this.#pages.push({ marks: [] });
    this.yMm = MARGIN_MM;
    const look = { sizeMm: HEAD_MM, isBold: true };
    const titleMm = this.typeface.widthMm(this.#head.title, look) + 4;
    const top = this.yMm;
    this.text(this.#head.name, { ...look, widthMm: this.widthMm - titleMm });
    const right = this.leftMm + this.widthMm;
    this.draw(words(this.#head.title, [right, top + HEAD_MM], { ...look, align: 'end' }));
    this.yMm += 0.8;
    this.draw(
      line([
        [this.leftMm, this.yMm],
        [right, this.yMm],
      ]),
    );
    this.yMm += 3;
    if (this.#head.fault !== null) this.#drawFault(this.#head.fault);
    this.#freshMarks = this.#pages.at(-1)?.marks.length ?? 0;
  }

  /** Bold on a pale ground, so that a copy of a copy still shows it. */
  #drawFault(words_: string): void {
    const look = { sizeMm: FAULT_MM, isBold: true, widthMm: this.widthMm - 2 * FAULT_INSET_MM };
    const lines = textLines(this.typeface, words_, look).length;
    this.pale(this.yMm - 1, lines * FAULT_MM * LINE_RATIO + 2);
    this.text(words_, { ...look, insetMm: FAULT_INSET_MM });
    this.yMm += 3;
  }

  draw(...marks: readonly PageMark[]): void {
    this.#pages.at(-1)?.marks.push(...marks);
  }

  /** A new page unless so much is free; what is higher than a page has to do with one. */
  need(heightMm: number): void {
    const isFresh = this.#pages.at(-1)?.marks.length === this.#freshMarks;
    if (heightMm > this.roomMm && !isFresh) this.newPage();
  }

  space(heightMm: number): void {
    this.yMm = Math.min(this.bottomMm, this.yMm + heightMm);
  }

  /** Lines from the left margin or `insetMm` right of it; over the end of the page line by line. */
  text(text: string, look: Partial<LineRoom> & { readonly insetMm?: number } = {}): void {
    const { sizeMm = 3.1, isBold = false, insetMm = 0, widthMm = this.widthMm - insetMm } = look;
    const lineMm = sizeMm * LINE_RATIO;
    for (const text_ of textLines(this.typeface, text, { sizeMm, isBold, widthMm })) {
      if (this.yMm > MARGIN_MM) this.need(lineMm);
      this.draw(words(text_, [this.leftMm + insetMm, this.yMm + sizeMm], { sizeMm, isBold }));
      this.yMm += lineMm;
    }
  }

  /** Text stays with at least so much of what follows it. */
  heading(text: string, { sizeMm, followedByMm }: { readonly sizeMm: number; readonly followedByMm: number }): void {
    const lines = textLines(this.typeface, text, { sizeMm, isBold: true, widthMm: this.widthMm }).length;
    this.need(lines * sizeMm * LINE_RATIO + followedByMm);
    this.text(text, { sizeMm, isBold: true });
  }

  pale(topMm: number, heightMm: number, [fromMm, widthMm]: Point = [this.leftMm, this.widthMm]): void {
    this.draw(block([fromMm, topMm], [widthMm, heightMm], 'pale'));
  }

  /** All pages, numbered. Called once, at the end. */
  pages(): readonly Page[] {
    const count = this.#pages.length;
    const { widthMm, heightMm } = this.paper;
    const footMm = heightMm - MARGIN_MM;
    return this.#pages.map(({ marks }, index) => ({
      widthMm,
      heightMm,
      marks: [
        ...marks,
        ...this.#tail,
        words(this.#head.foot, [this.leftMm, footMm], { sizeMm: FOOT_MM }),
        words(`Page ${index + 1} of ${count}`, [this.leftMm + this.widthMm, footMm], { sizeMm: FOOT_MM, align: 'end' }),
      ],
    }));
  }
}
