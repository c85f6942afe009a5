/** What every call of the store is given to work with. */

import type { Unsaved } from '../../bridge/contract.ts';
import type { FileLog } from '../../output/file-log.ts';
import type { OpenFile, SaveFile } from '../../output/saved-file.ts';
import type { Connection } from '../file/connection.ts';
import type { DataFolder } from '../file/data-folder.ts';

/** What only the host can do: ask where a file should go, and close the window. */
export interface Host {
  readonly saveFile: SaveFile;
  readonly openFile?: OpenFile;
  /** The page holds nothing more that is not committed. */
  readyToClose(): void;
  /** Asked to close, the page holds what cannot be saved. Absent where the host cannot keep a page open. */
  notYetSaved?(unsaved: Unsaved): void;
}

export interface CallContext {
  readonly connection: Connection;
  readonly place: DataFolder;
  readonly host: Host;
  readonly version: string;
  readonly clock: () => Date;
  readonly newId: () => string;
  readonly log: FileLog;
}
