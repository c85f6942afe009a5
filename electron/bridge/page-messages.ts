/** Pages as they cross the bridge: what is drawn, on which paper, and the lines and words of a page in millimetres. */

import * as z from 'zod';
import { benchAskedSchema, stripsAskedSchema } from '../../core/index.ts';
import { headerDocument } from './messages.ts';
import { keptPlan } from './shelf-messages.ts';

export const paperSchema = z.enum(['letter', 'a4']);
export type PaperName = z.output<typeof paperSchema>;

/**
 * What is wrong with the header on disk, so that every page and file of it says so: `altered` is not what was finished, of
 * `damaged` the last steps are missing.
 */
const faultSchema = z.enum(['altered', 'damaged']);
export type Fault = z.output<typeof faultSchema>;

/** The header as the page shows it. `fault` is not there for one that is sound. */
const shown = { header: headerDocument, fault: faultSchema.exactOptional() };

/** What is drawn of a header. */
export const drawingSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('sheet'),
    ...shown,
    /** Its cut plans that were carried out. */
    plans: z.array(keptPlan).max(100),
  }),
  z.strictObject({ kind: z.literal('strips'), ...shown, strips: stripsAskedSchema }),
  z.strictObject({
    kind: z.literal('fixture'),
    ...shown,
    bench: benchAskedSchema,
    /** The plan view to fit one page, or in true size over as many as it takes. */
    plan: z.enum(['scaled', 'trueSize']),
  }),
]);
export type Drawing = z.output<typeof drawingSchema>;

/** A DXF has curves as arcs, or as chords for programs that read no arcs in a polyline. */
const formatSchema = z.enum(['pdf', 'csv', 'svg', 'dxfArcs', 'dxfChords']);
type Format = z.output<typeof formatSchema>;

/** Files that each drawing can leave as. */
const FORMATS: Readonly<Record<Drawing['kind'], readonly Format[]>> = {
  sheet: ['pdf', 'csv'],
  strips: ['pdf', 'svg', 'dxfArcs', 'dxfChords'],
  fixture: ['pdf', 'csv'],
};

export const savePagesSchema = z
  .strictObject({ drawing: drawingSchema, paper: paperSchema, format: formatSchema })
  .refine(({ drawing, format }) => FORMATS[drawing.kind].includes(format), 'no such file of this drawing');

/** Dark to light; all of them print on a printer that knows black only. */
const inkSchema = z.enum(['black', 'grey', 'pale', 'white']);
export type Ink = z.output<typeof inkSchema>;

const mm = z.number().min(-1e5).max(1e5);
/** To the right and down the page from its upper left corner. */
const placeSchema = z.tuple([mm, mm]);

export interface PageLine {
  readonly kind: 'line';
  readonly points: readonly (readonly [xMm: number, yMm: number])[];
  readonly isClosed: boolean;
  /** 0: not drawn, only filled. Ends are blunt. */
  readonly widthMm: number;
  /** Length of a dash and of the gap after it; 0: none. */
  readonly dashMm: number;
  readonly ink: Ink;
  readonly fill: Ink | null;
}

export interface PageText {
  readonly kind: 'text';
  readonly text: string;
  /** The foot of the line where it starts, has its middle or ends. */
  readonly at: readonly [xMm: number, yMm: number];
  readonly align: 'start' | 'middle' | 'end';
  /** Of the letters' square, as printers count. */
  readonly sizeMm: number;
  readonly isBold: boolean;
  /** Turned a quarter clockwise, to read down the page. */
  readonly isTurned: boolean;
  readonly ink: Ink;
}

export type PageMark = PageLine | PageText;

export interface Page {
  readonly widthMm: number;
  readonly heightMm: number;
  /** In the order in which they are drawn and read. */
  readonly marks: readonly PageMark[];
}

const markSchema: z.ZodType<PageMark> = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('line'),
    points: z.array(placeSchema),
    isClosed: z.boolean(),
    widthMm: mm,
    dashMm: mm,
    ink: inkSchema,
    fill: inkSchema.nullable(),
  }),
  z.strictObject({
    kind: z.literal('text'),
    text: z.string(),
    at: placeSchema,
    align: z.enum(['start', 'middle', 'end']),
    sizeMm: mm,
    isBold: z.boolean(),
    isTurned: z.boolean(),
    ink: inkSchema,
  }),
]);

export const pageSchema: z.ZodType<Page> = z.strictObject({ widthMm: mm, heightMm: mm, marks: z.array(markSchema) });
