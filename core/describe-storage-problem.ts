/** Says in plain sentences what happened to the disk or the database, what is safe, and what to do. */

import { assertNever } from './result.ts';
import type { StorageFault, StorageProblem } from './storage-problem.ts';

export function describeStorageProblem(problem: StorageProblem): string {
  switch (problem.kind) {
    case 'storage':
      return describeFault(problem.fault, problem.file);
    case 'changedElsewhere':
      return `The header was changed in another window: it is at revision ${problem.found}, this window was at ${problem.expected}. Both are safe; look at the other changes before saving yours again.`;
    case 'notFound':
      return `The ${NOUNS[problem.what]} is not there any more: it was removed in another window, or is not in the restored backup. Go back to the list and choose again.`;
    case 'damagedHeader':
      return `This header is damaged on disk (${problem.detail}). What is shown is sound, but it can no longer be changed: go on in a copy, or look for the rest in a backup. No other header is touched.`;
    case 'alteredHeader':
      return `"${problem.name}" is not as it was finished (${problem.detail}): it was damaged on disk, or altered by something other than Evenrun. Do not build from what is shown of it; a backup, or a file that it was exported to, may hold it as it was. No other header is touched.`;
    case 'finished':
      return `"${problem.name}" is finished, so the change was not made. Open it as a new header and change that copy.`;
    case 'nothingToUndo':
      return `There is nothing to ${problem.action}.`;
    case 'invalidRequest':
      return `A fault inside Evenrun: a request was malformed (${problem.call}: ${problem.detail}). Nothing was changed; restart Evenrun and, if it comes back, report it.`;
    case 'workGone':
      return 'This did not come to its end: it was stopped, or Evenrun was started again meanwhile. Nothing was changed; begin it again.';
    case 'pageUnknown':
      return 'This page does not belong to the Evenrun that runs now: it is a new tab, another browser, or Evenrun was started again. What was shown as saved is safe. Open the address that Evenrun printed when it started, all of it; if it cannot be found any more, start Evenrun again and open the address that it prints then.';
    case 'internal':
      return `Something went wrong inside Evenrun, and the step was not made. What was saved before is safe; restart the program and, if it comes back, report it with the reference ${problem.reference}.`;
    default:
      return assertNever(problem);
  }
}

const NOUNS = { header: 'header', stockItem: 'stock item', backup: 'backup', picture: 'picture' } as const;

function describeFault(fault: StorageFault, file: string): string {
  switch (fault) {
    case 'diskFull':
      return `The disk that holds ${file} is full, so nothing new can be saved. Everything saved before is safe; make room on the disk and try again.`;
    case 'readOnly':
      return `${file} can be read but not written, so nothing new can be saved. What is in it is safe; allow writing to it, or move the data folder to another place.`;
    case 'noPermission':
      return `The system does not let Evenrun use ${file}. What is in it is untouched; give your account permission to read and write it.`;
    case 'ioError':
      return `The disk did not read or write ${file} properly. What was saved before is most likely safe; copy the data folder to another disk before going on, and check this one.`;
    case 'corrupt':
      return `${file} is damaged. It has been left as it is, and the backups are not touched; restore the newest backup that opens.`;
    case 'notOurs':
      return `${file} is not a database of Evenrun. It has not been changed; move it away, or choose another data folder.`;
    case 'newerVersion':
      return `${file} was written by a newer version of Evenrun. It has not been changed; update Evenrun, or restore a backup from before the update.`;
    case 'busy':
      return `Another program is holding ${file}, so the change is not saved yet. What was saved before is safe; close the other program or wait a moment, then try again.`;
    case 'missing':
      return `${file} is not there: its disk or folder may be disconnected or was moved. Connect it again, or restore a backup.`;
    case 'pathTooLong':
      return `The path of ${file} is too long for a database and its backups. Nothing was changed; start Evenrun with a data folder that has a shorter path.`;
    default:
      return assertNever(fault);
  }
}
