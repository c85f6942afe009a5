/** The parts of what crosses the bridge: the domain's documents, and what calls are asked with and answer. */

import * as z from 'zod';
import {
  editSchema,
  type Header,
  headerSchema,
  idSchema,
  lengthSchema,
  type Primary,
  type Problem,
  primarySchema,
  type StockItem,
  type StockReading,
  stockItemSchema,
  stockReadingSchema,
} from '../../core/index.ts';

// The domain's own types, read-only as core declares them, stand for what crosses the bridge.
export const headerDocument: z.ZodType<Header> = headerSchema;
const primaryDocument: z.ZodType<Primary> = primarySchema;
export const stockItem: z.ZodType<StockItem> = stockItemSchema;

const stockReading: z.ZodType<StockReading> = stockReadingSchema;
export const nothing = z.strictObject({});
export const revision = z.int().min(0);
export const headerRefSchema = z.strictObject({ headerId: idSchema });
/**
 * Chosen by whoever asks, anew for each thing that is to be done. A request that got no answer, or was refused by a disk,
 * is sent again under the same id: it is done once, and answered as the first time.
 */
export const requestId = z.string().regex(/^[A-Za-z0-9_-]{8,64}$/);
/** Times are labels for people, ISO 8601 in UTC; nothing is ordered by them. */
export const timeLabel = z.string().max(40);
export const finiteMm = z.number().min(-1e9).max(1e9);

/** Files travel as base64: at most 10 MiB of content. */
export const fileContent = z.base64().max(14_000_000);

/** What a page that is asked to close could not get onto the disk. */
export const unsavedSchema = z.strictObject({
  /** As the page shows it. */
  header: headerDocument,
  /** How many steps of it are not on disk. */
  steps: z.int().min(1),
  /** A sentence for the person. */
  reason: z.string().max(2_000),
});
export type Unsaved = z.output<typeof unsavedSchema>;

/** Problems cross the bridge as core made them; core's own types describe their kinds. */
export const problemSchema = z.custom<Problem>(
  (value) => typeof value === 'object' && value !== null && typeof (value as { kind?: unknown }).kind === 'string',
);

const turnDeg = z.number().min(-360).max(360);
/** Where a header is looked at from: all of it from these angles, or a camera left by hand. */
const standpointSchema = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('all'),
    angles: z.strictObject({ azimuthDeg: turnDeg, elevationDeg: turnDeg }),
  }),
  z.strictObject({
    kind: z.literal('free'),
    camera: z.strictObject({
      target: z.strictObject({ x: finiteMm, y: finiteMm, z: finiteMm }),
      azimuthDeg: turnDeg,
      elevationDeg: turnDeg,
      heightMm: z.number().min(1e-3).max(1e9),
    }),
  }),
]);

/** In minutes or money, as the shop counts. */
const price = z.number().min(0).max(1e6);

export const preferencesSchema = z.strictObject({
  theme: z.enum(['system', 'light', 'dark']),
  /** `bench` has targets for gloves; `desk` is denser. */
  density: z.enum(['bench', 'desk']),
  /** Parts of the bench that were dragged to a size of their own, in CSS pixels. */
  sizes: z.partialRecord(z.enum(['panel', 'pieces', 'board']), z.int().min(50).max(8000)).optional(),
  /**
   * What the shop counts for its work, and whether moves are put in order by it: minutes or money for a joint, a saw cut, a bend
   * added, a metre or foot of tube, and a piece that the shelf lacks.
   */
  movePrices: z
    .strictObject({
      rankBy: z.enum(['order', 'minutes', 'money']),
      joint: price,
      cut: price,
      bend: price,
      tube: price,
      tubePer: z.enum(['m', 'ft']),
      ordered: price,
    })
    .optional(),
  /** How the shop saws: kerf, what each sawn end is dressed by, and the shortest remnant that it keeps. */
  saw: z.strictObject({ kerf: lengthSchema, facing: lengthSchema, shortestRemnant: lengthSchema }).optional(),
  /** How the rows of the match board are ordered; as in the header when it is left out. */
  boardOrder: z.enum(['port', 'miss']).optional(),
  /** Where headers were last looked at from, the latest last. Left out, those kept stay as they are. */
  standpoints: z
    .array(z.strictObject({ headerId: idSchema, standpoint: standpointSchema }))
    .max(10)
    .optional(),
});

/** Text typed but not yet accepted, so that it can be offered again. */
export const draftSchema = z.strictObject({ field: z.string().max(200), text: z.string().max(400) });

/** A committed step that can be undone or redone. */
export const historyStepSchema = z.strictObject({
  label: z.string(),
  edit: editSchema,
  inverse: editSchema,
  /** It cut pieces by a plan, or turned that back: turning it back moves stock as well, which no edit alone does. */
  isPlan: z.literal(true).optional(),
});

export const openedHeaderSchema = z.strictObject({
  header: headerDocument,
  revision,
  /** The newest steps, oldest first; the last is what undo takes back next. */
  undo: z.array(historyStepSchema),
  /** Where `readHistory` goes on; null: these are all. */
  moreUndo: revision.nullable(),
  /** Oldest first; the last is what redo brings back next. */
  redo: z.array(historyStepSchema),
  moreRedo: revision.nullable(),
  draft: draftSchema.nullable(),
  /** What is damaged on disk; null: nothing. Such a header is as it was up to its revision, and takes no more steps. */
  damage: problemSchema.nullable(),
});

export const headerSummarySchema = z.strictObject({
  headerId: idSchema,
  name: z.string(),
  state: z.enum(['open', 'finished']),
  revision,
  primaryCount: z.int(),
  pieceCount: z.int(),
  changedAt: timeLabel,
});

export const backupSchema = z.strictObject({
  name: z.string().max(200),
  kind: z.enum(['recent', 'daily', 'beforeMigration', 'setAside', 'damaged']),
  takenAt: timeLabel,
  bytes: z.int().min(0),
});

/** Where an exported text went: saved by the host's dialog, called off, or handed over for the page to download. */
export const savedFileSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('saved'), fileName: z.string() }),
  z.strictObject({ kind: z.literal('cancelled') }),
  z.strictObject({ kind: z.literal('download'), fileName: z.string(), mediaType: z.string(), text: z.string() }),
  z.strictObject({
    kind: z.literal('downloadBytes'),
    fileName: z.string(),
    mediaType: z.string(),
    base64: z.base64(),
  }),
]);

/** A line of a CSV file that could not be read; `line` counts from 1 as a spreadsheet does. */
const refusedLineSchema = z.strictObject({
  line: z.int().min(1),
  column: z.string().nullable(),
  problem: problemSchema,
});

export const filePreviewSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('header'), header: headerDocument }),
  z.strictObject({
    kind: z.literal('parts'),
    primaries: z.array(primaryDocument),
    refused: z.array(refusedLineSchema),
    commas: z.array(z.string()),
  }),
  z.strictObject({
    kind: z.literal('stock'),
    items: z.array(stockItem),
    refused: z.array(refusedLineSchema),
    /** The first numbers whose comma was read as a decimal point. */
    commas: z.array(z.string()),
    /** The first cells that were read by a rule: gauges, and costs with a currency sign or a decimal comma. */
    said: z.array(stockReading),
  }),
]);

export const startSchema = z.discriminatedUnion('state', [
  z.strictObject({
    state: z.literal('ready'),
    version: z.string(),
    dataFolder: z.string(),
    /** Where the session before this one left off; null on first start. */
    lastHeaderId: idSchema.nullable(),
    preferences: preferencesSchema,
    /** Things the user should know, such as a data folder inside a synchronised folder. */
    notices: z.array(z.string()),
    /** Null: all is well. Otherwise why the headers can only be looked at and exported; every call that writes answers this. */
    cannotWrite: problemSchema.nullable(),
  }),
  z.strictObject({
    state: z.literal('cannotOpen'),
    version: z.string(),
    dataFolder: z.string(),
    problem: problemSchema,
    backups: z.array(backupSchema),
  }),
]);
