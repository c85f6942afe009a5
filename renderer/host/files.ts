/** Files in and out: asking for one, reading it as the bridge carries it, handing one over for download. */

import type { ResponseOf } from '../../electron/bridge/contract.ts';

export interface GivenFile {
  readonly fileName: string;
  /** Base64. */
  readonly content: string;
}

/** What a host would refuse anyway is not read at all: 10 MiB, as the contract says. */
export const FILE_LIMIT_BYTES = 10 * 1024 * 1024;

export function bytesToBase64(bytes: Uint8Array): string {
  let binary = '';
  const chunk = 0x8000;
  for (let at = 0; at < bytes.length; at += chunk) {
    binary += String.fromCharCode(...bytes.subarray(at, at + chunk));
  }
  return btoa(binary);
}

export async function readGivenFile(file: File): Promise<GivenFile> {
  return { fileName: file.name, content: bytesToBase64(new Uint8Array(await file.arrayBuffer())) };
}

/** Asks for one file with the platform's own dialog. Null when called off. */
export async function askForFile(accept: string): Promise<File | null> {
  const [file] = await chosenFiles(accept, false);
  return file ?? null;
}

/** As askForFile, for any number; none when called off. */
export function askForFiles(accept: string): Promise<readonly File[]> {
  return chosenFiles(accept, true);
}

function chosenFiles(accept: string, isMultiple: boolean): Promise<readonly File[]> {
  return new Promise((resolve) => {
    const input = document.createElement('input');
    input.type = 'file';
    input.accept = accept;
    input.multiple = isMultiple;
    input.hidden = true;
    const answer = (files: readonly File[]) => {
      input.remove();
      resolve(files);
    };
    input.addEventListener('change', () => answer([...(input.files ?? [])]));
    input.addEventListener('cancel', () => answer([]));
    // In the page, because an input that only the dialog knows of can be collected as garbage, and the answer with it.
    document.body.append(input);
    input.click();
  });
}

type SavedFile = ResponseOf<'exportHeader'>;

/** Finishes an export; the sentence says where it went, and is null when the person called it off. */
export function finishExport(saved: SavedFile): string | null {
  switch (saved.kind) {
    case 'saved':
      return `Saved as ${saved.fileName}.`;
    case 'cancelled':
      return null;
    case 'download':
      downloadText(saved);
      return `Handed to the browser to save as ${saved.fileName}.`;
    case 'downloadBytes':
      downloadBytes(saved);
      return `Handed to the browser to save as ${saved.fileName}.`;
  }
}

export function downloadText(file: {
  readonly fileName: string;
  readonly mediaType: string;
  readonly text: string;
}): void {
  downloadBlob(file.fileName, new Blob([file.text], { type: file.mediaType }));
}

function downloadBytes({ fileName, mediaType, base64 }: Extract<SavedFile, { kind: 'downloadBytes' }>): void {
  const bytes = base64ToBytes(base64);
  downloadBlob(fileName, new Blob([bytes], { type: mediaType }));
}

export function base64ToBytes(base64: string): Uint8Array<ArrayBuffer> {
  return Uint8Array.from(atob(base64), (character) => character.charCodeAt(0));
}

export function downloadBlob(fileName: string, content: Blob): void {
  const url = URL.createObjectURL(content);
  const link = document.createElement('a');
  link.href = url;
  link.download = fileName;
  document.body.append(link);
  link.click();
  link.remove();
  // The browser has taken its copy by the next turns of the loop.
  setTimeout(() => URL.revokeObjectURL(url), 10_000);
}
