/** Names of backup files: a counter for order, what it was made for, and a time as a label for people. */

export type BackupKind = 'recent' | 'daily' | 'beforeMigration' | 'setAside';

export interface BackupName {
  readonly name: string;
  /** Grows by one with every backup: order never depends on the clock. */
  readonly number: number;
  readonly kind: BackupKind;
  /** ISO 8601, UTC. */
  readonly takenAt: string;
}

const PATTERN =
  /^evenrun-(\d{6,12})-(recent|daily|beforeMigration|setAside)-(\d{4}-\d\d-\d\d)T(\d\d)-(\d\d)-(\d\d)Z\.sqlite$/;

export function backupName(parts: { readonly number: number; readonly kind: BackupKind; readonly at: Date }): string {
  const label = parts.at.toISOString().slice(0, 19).replaceAll(':', '-');
  return `evenrun-${String(parts.number).padStart(6, '0')}-${parts.kind}-${label}Z.sqlite`;
}

/** Null: not the name of a backup. Names are the only way in which the page names a file, so nothing else may pass. */
export function parseBackupName(name: string): BackupName | null {
  const [, number, kind, day, hour, minute, second] = PATTERN.exec(name) ?? [];
  if (number === undefined) return null;
  return { name, number: Number(number), kind: kind as BackupKind, takenAt: `${day}T${hour}:${minute}:${second}Z` };
}
