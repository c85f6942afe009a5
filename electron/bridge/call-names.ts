/** The names of all calls, without their schemas: all that the preload needs to know of the contract. */

import type { CallName } from './contract.ts';

/** Fails to compile when a call is missing here or one is made up. */
const NAMED: Readonly<Record<CallName, true>> = {
  start: true,
  savePreferences: true,
  listHeaders: true,
  lookAtHeaders: true,
  createHeader: true,
  openHeader: true,
  readHistory: true,
  readRevision: true,
  commitSteps: true,
  saveDraft: true,
  duplicateHeader: true,
  binHeader: true,
  restoreHeader: true,
  importHeader: true,
  exportHeader: true,
  previewFile: true,
  listStock: true,
  changeShelf: true,
  turnShelfBack: true,
  readShelfHistory: true,
  readMovements: true,
  exportStock: true,
  planCuts: true,
  readCutPlan: true,
  stopCutPlan: true,
  drawPages: true,
  savePages: true,
  carryOutCutPlan: true,
  listCutPlans: true,
  searchArchive: true,
  readShopFigures: true,
  listBackups: true,
  makeBackup: true,
  restoreBackup: true,
  readyToClose: true,
  notYetSaved: true,
};

export const CALL_NAMES: ReadonlySet<string> = new Set(Object.keys(NAMED));
