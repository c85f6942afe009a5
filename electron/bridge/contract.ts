/** The bridge, written once: every call's name, what it is asked with and what it answers. */

import * as z from 'zod';
import {
  cutPlanSchema,
  cutProblemSchema,
  idSchema,
  lengthSchema,
  nameSchema,
  type Problem,
  textSchema,
} from '../../core/index.ts';
import { archiveRowSchema, archiveSearchSchema, likeSchema, shopFiguresSchema } from './archive-messages.ts';
import type { CommandId } from './commands.ts';
import {
  backupSchema,
  draftSchema,
  fileContent,
  filePreviewSchema,
  headerDocument,
  headerRefSchema,
  headerSummarySchema,
  historyStepSchema,
  nothing,
  openedHeaderSchema,
  preferencesSchema,
  problemSchema,
  requestId,
  revision,
  savedFileSchema,
  startSchema,
  unsavedSchema,
} from './messages.ts';
import { drawingSchema, pageSchema, paperSchema, savePagesSchema } from './page-messages.ts';
import { addPictureSchema, changePictureSchema, pictureContent, picturesSchema } from './picture-messages.ts';
import {
  carriedOutSchema,
  movementSchema,
  planProgressSchema,
  sawnPlanSchema,
  shelfChange,
  shelfHistorySchema,
  shelfWrittenSchema,
  storedStockItemSchema,
} from './shelf-messages.ts';
import { stepsSchema } from './step-schema.ts';
import {
  beginExportSchema,
  begunSchema,
  bringBackSchema,
  broughtBackSchema,
  continueWorkSchema,
  workStateSchema,
} from './work-messages.ts';

export type { Unsaved } from './messages.ts';

export const contract = {
  start: { request: nothing, response: startSchema },
  savePreferences: { request: z.strictObject({ preferences: preferencesSchema }), response: nothing },

  listHeaders: {
    request: z.strictObject({ place: z.enum(['bench', 'bin']) }),
    response: z.strictObject({ headers: z.array(headerSummarySchema) }),
  },
  /** Headers as they stand, for the pictures of a list; those that cannot be read are left out. Nothing is remembered of it. */
  lookAtHeaders: {
    request: z.strictObject({ headerIds: z.array(idSchema).max(40) }),
    response: z.strictObject({ headers: z.array(headerDocument) }),
  },
  createHeader: {
    request: z.strictObject({ requestId, name: nameSchema, from: z.enum(['blank', 'demo']) }),
    response: openedHeaderSchema,
  },
  openHeader: { request: headerRefSchema, response: openedHeaderSchema },
  /** The steps that undo or redo comes to after those that are known, oldest first. */
  readHistory: {
    request: z.strictObject({ headerId: idSchema, action: z.enum(['undo', 'redo']), from: revision }),
    response: z.strictObject({ steps: z.array(historyStepSchema), more: revision.nullable() }),
  },
  /** Cheap; asked now and then to notice changes made by another window. */
  readRevision: {
    request: headerRefSchema,
    response: z.strictObject({ revision, state: z.enum(['open', 'finished']) }),
  },
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
    /** `movedStock`: an undo or redo among them took a cut plan back, or did it again, on the shelf as well. */
    response: z.strictObject({ revision, movedStock: z.literal(true).optional() }),
  },
  saveDraft: { request: z.strictObject({ headerId: idSchema, draft: draftSchema.nullable() }), response: nothing },
  duplicateHeader: {
    /**
     * `again`: to be built from new tube, so every piece is planned; `mirrored`: likewise, for the other side of the vehicle; `same`: the header
     * itself, to go on with.
     */
    request: z.strictObject({
      requestId,
      headerId: idSchema,
      name: nameSchema,
      as: z.enum(['again', 'mirrored', 'same']),
    }),
    response: openedHeaderSchema,
  },
  binHeader: { request: headerRefSchema, response: nothing },
  restoreHeader: { request: headerRefSchema, response: nothing },
  importHeader: { request: z.strictObject({ requestId, header: headerDocument }), response: openedHeaderSchema },
  exportHeader: { request: headerRefSchema, response: savedFileSchema },
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

  /** What lies on the shelf; with `sizes` only tube of these ODs and walls, whatever its material. */
  listStock: {
    request: z.strictObject({
      sizes: z
        .array(z.strictObject({ od: lengthSchema, wall: lengthSchema }))
        .max(100)
        .optional(),
    }),
    response: z.strictObject({ stock: z.array(storedStockItemSchema), history: shelfHistorySchema }),
  },
  /**
   * One step of the stock book: all changes, or none. `because` names what it is for where that says more than the changes do,
   * such as a cut plan; otherwise it is empty.
   */
  changeShelf: {
    request: z.strictObject({
      requestId,
      changes: z.array(shelfChange).min(1).max(20_000),
      because: z.union([nameSchema, z.literal('')]),
    }),
    response: shelfWrittenSchema,
  },
  /** Takes a step of the stock book back as one, or does it again; a cut plan together with the pieces that it cut. */
  turnShelfBack: {
    request: z.strictObject({ requestId, action: z.enum(['undo', 'redo']), step: z.int().min(1) }),
    response: shelfWrittenSchema,
  },
  /** Cheap; what undo and redo of the shelf come to next. */
  readShelfHistory: { request: nothing, response: shelfHistorySchema },
  readMovements: {
    request: z.strictObject({ itemId: idSchema }),
    response: z.strictObject({ movements: z.array(movementSchema) }),
  },
  exportStock: { request: nothing, response: savedFileSchema },

  /**
   * Answered when the plan is made, the time is up, or it is stopped; the last two give the best so far. May take as long
   * as `limitSeconds`; the plan is asked about and stopped by the id that is given it here.
   */
  planCuts: {
    request: z.strictObject({ planId: idSchema, problem: cutProblemSchema, limitSeconds: z.number().min(0).max(600) }),
    response: z.strictObject({ plan: cutPlanSchema }),
  },
  /** How far a plan is; null before there is anything to tell, and after its end. */
  readCutPlan: {
    request: z.strictObject({ planId: idSchema }),
    response: z.strictObject({ progress: planProgressSchema.nullable() }),
  },
  stopCutPlan: { request: z.strictObject({ planId: idSchema }), response: nothing },

  /**
   * A cut plan is sawn: stock goes and remnants come (`changes`), and the pieces of its headers are cut (`edit`), in one transaction.
   * It is one step in all books: undo on the bench and `turnShelfBack` each take all of it back. Refused when a header is past its
   * `baseRevision`, or a row of `known` is at another revision.
   */
  carryOutCutPlan: {
    request: carriedOutSchema,
    response: shelfWrittenSchema,
  },
  /**
   * Plans of a header that were carried out and not taken back, the newest first. Of a finished header those that stood when it was finished, which nothing
   * takes back: `step` then only tells them apart.
   */
  listCutPlans: {
    request: headerRefSchema,
    response: z.strictObject({
      plans: z.array(sawnPlanSchema),
    }),
  },

  /** What is told of a header's pictures; none is frozen until the header is finished, and none is changed after. */
  listPictures: { request: headerRefSchema, response: picturesSchema },
  /** Null: its file is damaged or gone. */
  readPicture: {
    request: z.strictObject({ headerId: idSchema, pictureId: idSchema }),
    response: z.strictObject({ content: pictureContent.nullable() }),
  },
  /** No step of the journal, and so nothing that undo comes to: pictures are put back by adding them again. */
  addPicture: { request: addPictureSchema, response: picturesSchema },
  changePicture: { request: changePictureSchema, response: picturesSchema },

  /** One page of what is found. `count` is how many are found in all; `like` has the figures of the header of `likeId`, if it can be read. */
  searchArchive: {
    request: archiveSearchSchema,
    response: z.strictObject({
      rows: z.array(archiveRowSchema),
      count: z.int().min(0),
      like: likeSchema.nullable(),
    }),
  },
  /** How the shop has done with every header that it finished, and what tube it had left. Takes a few tenths of a second in a large shop. */
  readShopFigures: { request: nothing, response: shopFiguresSchema },
  /** Which finished headers are not what was finished. Looks at every byte of them, pictures included; few at a time, after a list is shown. */
  checkFinished: {
    request: z.strictObject({ headerIds: z.array(idSchema).max(40) }),
    response: z.strictObject({
      altered: z.array(z.strictObject({ headerId: idSchema, problem: problemSchema })),
    }),
  },

  /** What is written of a finished header in a file, brought back; several lines at once, in one transaction. */
  bringBackFinished: { request: bringBackSchema, response: broughtBackSchema },

  /**
   * Long work, done as far as `continueWork` asks for it and stopped at any point without harm: finished headers into one file, a line
   * each. Where the host cannot ask where to put the file, it comes in pieces, to be saved by the page.
   */
  beginExport: { request: beginExportSchema, response: begunSchema },
  /** The same with all that is kept, as one file that is proven before the work says that it is done. */
  beginBackup: { request: nothing, response: begunSchema },
  continueWork: { request: continueWorkSchema, response: workStateSchema },
  /** A backup of everything that the page hands in, piece by piece: proven at the end, and nothing is replaced by it yet. */
  beginRestore: { request: z.strictObject({ bytes: z.int().min(1) }), response: z.strictObject({ workId: idSchema }) },
  /** Leaves nothing behind; work that is over or was never begun is no matter. */
  stopWork: { request: z.strictObject({ workId: idSchema }), response: nothing },

  /** The pages of a sheet as they would print, for looking at; and the letters that cannot be printed, a sign in their place. */
  drawPages: {
    request: z.strictObject({ drawing: drawingSchema, paper: paperSchema }),
    response: z.strictObject({ pages: z.array(pageSchema), missing: z.array(z.string()) }),
  },
  /** The same as a file. */
  savePages: { request: savePagesSchema, response: savedFileSchema },

  listBackups: { request: nothing, response: z.strictObject({ backups: z.array(backupSchema) }) },
  makeBackup: { request: nothing, response: backupSchema },
  restoreBackup: { request: z.strictObject({ name: z.string().max(200) }), response: startSchema },

  /** Puts a proven file in the place of the database, which is set aside among the backups. */
  restoreGiven: { request: z.strictObject({ givenId: idSchema }), response: startSchema },
  /** Takes a proven file away again. */
  dropGiven: { request: z.strictObject({ givenId: idSchema }), response: nothing },

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
