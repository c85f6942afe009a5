/** The bridge, written once: every call's name, what it is asked with and what it answers. */

import * as z from 'zod';
import {
  editSchema,
  type Header,
  headerSchema,
  idSchema,
  lengthStyleSchema,
  nameSchema,
  type Primary,
  type Problem,
  primarySchema,
  type StockItem,
  stockItemSchema,
  textSchema,
} from '../../core/index.ts';
import type { CommandId } from './commands.ts';
import { stepsSchema } from './step-schema.ts';

// The domain's own types, read-only as core declares them, stand for what crosses the bridge.
const headerDocument: z.ZodType<Header> = headerSchema;
const primaryDocument: z.ZodType<Primary> = primarySchema;
const stockItem: z.ZodType<StockItem> = stockItemSchema;

const nothing = z.strictObject({});
const revision = z.int().min(0);
export const headerRefSchema = z.strictObject({ headerId: idSchema });
const headerRef = headerRefSchema;
/**
 * Chosen by whoever asks, anew for each thing that is to be done. A request that got no answer, or was refused by a disk,
 * is sent again under the same id: it is done once, and answered as the first time.
 */
const requestId = z.string().regex(/^[A-Za-z0-9_-]{8,64}$/);
/** Times are labels for people, ISO 8601 in UTC; nothing is ordered by them. */
const timeLabel = z.string().max(40);
const finiteMm = z.number().min(-1e9).max(1e9);

/** Files travel as base64: at most 10 MiB of content. */
const fileContent = z.base64().max(14_000_000);

/** What a page that is asked to close could not get onto the disk. */
const unsavedSchema = z.strictObject({
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

export const preferencesSchema = z.strictObject({
  theme: z.enum(['system', 'light', 'dark']),
  /** `bench` has targets for gloves; `desk` is denser. */
  density: z.enum(['bench', 'desk']),
});

/** Text typed but not yet accepted, so that it can be offered again. */
export const draftSchema = z.strictObject({ field: z.string().max(200), text: z.string().max(400) });

/** A committed step that can be undone or redone. */
const historyStepSchema = z.strictObject({ label: z.string(), edit: editSchema, inverse: editSchema });

const openedHeaderSchema = z.strictObject({
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

const headerSummarySchema = z.strictObject({
  headerId: idSchema,
  name: z.string(),
  state: z.enum(['open', 'finished']),
  revision,
  primaryCount: z.int(),
  pieceCount: z.int(),
  changedAt: timeLabel,
});

const archiveRowSchema = z.strictObject({
  headerId: idSchema,
  name: z.string(),
  note: z.string(),
  finishedAt: timeLabel,
  display: lengthStyleSchema,
  material: z.string(),
  odMm: finiteMm,
  targetMm: finiteMm,
  meanMm: finiteMm,
  spreadMm: finiteMm,
  /** One entry a primary, each a list of its pieces, for the small drawing. */
  primaries: z.array(
    z.strictObject({
      name: z.string(),
      lengthMm: finiteMm,
      pieces: z.array(z.strictObject({ kind: z.enum(['straight', 'bend', 'pieCut']), lengthMm: finiteMm })),
    }),
  ),
});

const backupSchema = z.strictObject({
  name: z.string().max(200),
  kind: z.enum(['recent', 'daily', 'beforeMigration', 'setAside']),
  takenAt: timeLabel,
  bytes: z.int().min(0),
});

/** Where an exported text went: saved by the host's dialog, called off, or handed over for the page to download. */
const savedFileSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('saved'), fileName: z.string() }),
  z.strictObject({ kind: z.literal('cancelled') }),
  z.strictObject({ kind: z.literal('download'), fileName: z.string(), mediaType: z.string(), text: z.string() }),
]);

/** A line of a CSV file that could not be read; `line` counts from 1 as a spreadsheet does. */
const refusedLineSchema = z.strictObject({
  line: z.int().min(1),
  column: z.string().nullable(),
  problem: problemSchema,
});

const filePreviewSchema = z.discriminatedUnion('kind', [
  z.strictObject({ kind: z.literal('header'), header: headerDocument }),
  z.strictObject({
    kind: z.literal('parts'),
    primaries: z.array(primaryDocument),
    refused: z.array(refusedLineSchema),
  }),
  z.strictObject({ kind: z.literal('stock'), items: z.array(stockItem), refused: z.array(refusedLineSchema) }),
]);

const storedStockItemSchema = z.strictObject({ item: stockItem, revision });

const rangeMm = z.strictObject({ lowMm: finiteMm, highMm: finiteMm }).nullable();

const startSchema = z.discriminatedUnion('state', [
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

export const contract = {
  start: { request: nothing, response: startSchema },
  savePreferences: { request: z.strictObject({ preferences: preferencesSchema }), response: nothing },

  listHeaders: {
    request: z.strictObject({ place: z.enum(['bench', 'bin']) }),
    response: z.strictObject({ headers: z.array(headerSummarySchema) }),
  },
  createHeader: {
    request: z.strictObject({ requestId, name: nameSchema, from: z.enum(['blank', 'demo']) }),
    response: openedHeaderSchema,
  },
  openHeader: { request: headerRef, response: openedHeaderSchema },
  /** The steps that undo or redo comes to after those that are known, oldest first. */
  readHistory: {
    request: z.strictObject({ headerId: idSchema, action: z.enum(['undo', 'redo']), from: revision }),
    response: z.strictObject({ steps: z.array(historyStepSchema), more: revision.nullable() }),
  },
  /** Cheap; asked now and then to notice changes made by another window. */
  readRevision: { request: headerRef, response: z.strictObject({ revision, state: z.enum(['open', 'finished']) }) },
  /**
   * Answered only once all steps are on disk; all of them are, or none is. `draft` takes the place of the draft kept so far
   * in the same moment, so that text is never both taken and offered again; left out, the draft stays as it is.
   */
  commitSteps: {
    request: z.strictObject({
      headerId: idSchema,
      baseRevision: revision,
      steps: stepsSchema,
      draft: draftSchema.nullable().optional(),
    }),
    response: z.strictObject({ revision }),
  },
  saveDraft: { request: z.strictObject({ headerId: idSchema, draft: draftSchema.nullable() }), response: nothing },
  duplicateHeader: {
    request: z.strictObject({ requestId, headerId: idSchema, name: nameSchema }),
    response: openedHeaderSchema,
  },
  binHeader: { request: headerRef, response: nothing },
  restoreHeader: { request: headerRef, response: nothing },
  importHeader: { request: z.strictObject({ requestId, header: headerDocument }), response: openedHeaderSchema },
  exportHeader: { request: headerRef, response: savedFileSchema },
  /** Reads a file without keeping anything of it: a header file, a parts list or a stock list. */
  previewFile: {
    request: z.strictObject({
      fileName: textSchema,
      content: fileContent,
      expect: z.enum(['header', 'parts', 'stock']),
      /** Unit of bare numbers in a CSV. */
      unit: z.enum(['in', 'mm']),
    }),
    response: filePreviewSchema,
  },

  listStock: { request: nothing, response: z.strictObject({ stock: z.array(storedStockItemSchema) }) },
  /** `baseRevision` null adds; a number replaces the item as it was at that revision. */
  saveStockItem: {
    request: z.strictObject({ requestId, item: stockItem, baseRevision: revision.nullable() }),
    response: storedStockItemSchema,
  },
  removeStockItem: {
    request: z.strictObject({ requestId, itemId: idSchema, baseRevision: revision }),
    response: nothing,
  },
  addStockItems: { request: z.strictObject({ requestId, items: z.array(stockItem).max(10_000) }), response: nothing },
  exportStock: { request: nothing, response: savedFileSchema },

  searchArchive: {
    request: z.strictObject({
      words: z.string().max(200),
      odMm: rangeMm,
      primaryCount: z.int().nullable(),
      targetMm: rangeMm,
    }),
    response: z.strictObject({ rows: z.array(archiveRowSchema) }),
  },

  listBackups: { request: nothing, response: z.strictObject({ backups: z.array(backupSchema) }) },
  makeBackup: { request: nothing, response: backupSchema },
  restoreBackup: { request: z.strictObject({ name: z.string().max(200) }), response: startSchema },

  /** The page has committed all that it held; the host may close the window. */
  readyToClose: { request: nothing, response: nothing },
  /** Asked to close, the page holds what cannot be saved; the host asks the person what to do. `readyToClose` may still follow. */
  notYetSaved: { request: unsavedSchema, response: nothing },
} as const satisfies Record<string, { readonly request: z.ZodType; readonly response: z.ZodType }>;

export type CallName = keyof typeof contract;
export type RequestOf<Name extends CallName> = z.output<(typeof contract)[Name]['request']>;
/** Calls that are done once for an id, however often they are sent. */
export type OnceCall = {
  [Name in CallName]: RequestOf<Name> extends { readonly requestId: string } ? Name : never;
}[CallName];
/** A request before whoever sends it has given it an id. */
export type AskedOf<Name extends CallName> = Omit<RequestOf<Name>, 'requestId'>;
export type ResponseOf<Name extends CallName> = z.output<(typeof contract)[Name]['response']>;

/** Every call answers with its response or with problems; it never rejects for an expected reason. */
export type Reply<Name extends CallName> =
  | { readonly ok: true; readonly value: ResponseOf<Name> }
  | { readonly ok: false; readonly problems: readonly Problem[] };

/** What the host tells the page without being asked. */
export type HostEvent =
  /** A command of the page was chosen in the menu bar. */
  | { readonly kind: 'command'; readonly command: CommandId }
  /** A header was chosen among the recent ones of the menu bar. */
  | { readonly kind: 'openHeader'; readonly headerId: string }
  /** The window is about to close: commit the focused field and everything held, then call `readyToClose`. */
  | { readonly kind: 'flush' }
  /** The system asked to open a file with this program. */
  | { readonly kind: 'openFile'; readonly fileName: string; readonly content: string };

/** What a host puts before the page: the preload under Electron, an HTTP client in a browser. */
export interface HostBridge {
  readonly host: 'electron' | 'browser';
  call<Name extends CallName>(name: Name, request: RequestOf<Name>): Promise<Reply<Name>>;
  /** Returns the function that stops listening. */
  onEvent(listener: (event: HostEvent) => void): () => void;
}
