/** Makes of a file that was chosen or dropped a picture as it is kept: upright, no larger than need be, JPEG or PNG. */

import { PICTURE_BYTES_LIMIT, PICTURE_SIDE_PX, type PictureType } from '../../core/index.ts';
import { bytesToBase64 } from '../host/files.ts';

export interface FittedPicture {
  readonly mediaType: PictureType;
  readonly widthPx: number;
  readonly heightPx: number;
  /** Base64. */
  readonly content: string;
}

export type Fitted =
  | { readonly ok: true; readonly picture: FittedPicture }
  /** `words`: why not, as a sentence. */
  | { readonly ok: false; readonly words: string };

/** No camera makes larger files. */
const READ_LIMIT_BYTES = 60_000_000;
/** Tried in turn until the file is small enough; even noise fits at the last. */
const JPEG_QUALITIES = [0.88, 0.75, 0.6, 0.4, 0.2] as const;

/**
 * The longest side is at most `PICTURE_SIDE_PX`, and never more than it was; what a camera notes of how it was held is obeyed, and nothing else
 * that it notes is kept. A PNG stays one while that is small enough, which drawings are and photographs are not.
 */
export async function fitPicture(file: File): Promise<Fitted> {
  if (file.size > READ_LIMIT_BYTES) return refused(file, 'is larger than 60 MB');
  const bitmap = await bitmapOf(file);
  if (bitmap === null) return refused(file, 'is not a picture that can be read here: use JPEG, PNG or WebP');
  try {
    const canvas = drawn(bitmap);
    const blob = await smallEnough(canvas, file.type === 'image/png');
    if (blob === null) return refused(file, 'cannot be made small enough');
    const content = bytesToBase64(new Uint8Array(await blob.arrayBuffer()));
    const mediaType = blob.type === 'image/png' ? 'image/png' : 'image/jpeg';
    return { ok: true, picture: { mediaType, widthPx: canvas.width, heightPx: canvas.height, content } };
  } finally {
    bitmap.close();
  }
}

function refused(file: File, why: string): Fitted {
  return { ok: false, words: `${file.name} was not added: it ${why}.` };
}

async function bitmapOf(file: File): Promise<ImageBitmap | null> {
  try {
    return await createImageBitmap(file, { imageOrientation: 'from-image' });
  } catch {
    return null;
  }
}

function drawn(bitmap: ImageBitmap): HTMLCanvasElement {
  const scale = Math.min(1, PICTURE_SIDE_PX / Math.max(bitmap.width, bitmap.height));
  const canvas = document.createElement('canvas');
  canvas.width = Math.max(1, Math.round(bitmap.width * scale));
  canvas.height = Math.max(1, Math.round(bitmap.height * scale));
  const pen = canvas.getContext('2d');
  if (pen === null) throw new Error('a canvas of this page cannot be drawn on');
  pen.imageSmoothingQuality = 'high';
  pen.drawImage(bitmap, 0, 0, canvas.width, canvas.height);
  return canvas;
}

async function smallEnough(canvas: HTMLCanvasElement, isDrawing: boolean): Promise<Blob | null> {
  if (isDrawing) {
    const png = await blobOf(canvas, 'image/png');
    if (isSmall(png)) return png;
  }
  onWhite(canvas);
  for (const quality of JPEG_QUALITIES) {
    const jpeg = await blobOf(canvas, 'image/jpeg', quality);
    if (isSmall(jpeg)) return jpeg;
  }
  return null;
}

function isSmall(blob: Blob | null): blob is Blob {
  return blob !== null && blob.size <= PICTURE_BYTES_LIMIT;
}

/** A JPEG knows no transparency, and would show black for it. */
function onWhite(canvas: HTMLCanvasElement): void {
  const pen = canvas.getContext('2d');
  if (pen === null) return;
  pen.globalCompositeOperation = 'destination-over';
  pen.fillStyle = '#ffffff';
  pen.fillRect(0, 0, canvas.width, canvas.height);
}

function blobOf(canvas: HTMLCanvasElement, type: PictureType, quality?: number): Promise<Blob | null> {
  return new Promise((resolve) => canvas.toBlob(resolve, type, quality));
}
