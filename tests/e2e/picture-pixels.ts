/** Colours of what is on the screen, read from a picture of it. */

import type { Locator, Page } from 'playwright-core';

export type Colour = readonly [red: number, green: number, blue: number];

export interface Pixels {
  readonly width: number;
  readonly height: number;
  readonly at: (x: number, y: number) => Colour;
}

/** The pixels of an element as it is drawn, decoded in a page of its own: the program's policy lets in no pictures. */
export async function pixelsOf(place: Locator, decoder: Page): Promise<Pixels> {
  const png = (await place.screenshot({ scale: 'css' })).toString('base64');
  const { width, height, data } = await decoder.evaluate(async (base64) => {
    const bytes = Uint8Array.from(atob(base64), (letter) => letter.charCodeAt(0));
    const bitmap = await createImageBitmap(new Blob([bytes], { type: 'image/png' }));
    const canvas = new OffscreenCanvas(bitmap.width, bitmap.height);
    const context = canvas.getContext('2d');
    if (context === null) throw new Error('no canvas');
    context.drawImage(bitmap, 0, 0);
    const image = context.getImageData(0, 0, bitmap.width, bitmap.height);
    let text = '';
    for (let from = 0; from < image.data.length; from += 8192) {
      text += String.fromCharCode(...image.data.subarray(from, from + 8192));
    }
    return { width: bitmap.width, height: bitmap.height, data: btoa(text) };
  }, png);
  const bytes = Buffer.from(data, 'base64');
  const at = (x: number, y: number): Colour => {
    const first = 4 * (y * width + x);
    return [bytes[first] ?? 0, bytes[first + 1] ?? 0, bytes[first + 2] ?? 0];
  };
  return { width, height, at };
}

/** Contrast ratio, 1 to 21. Source: WCAG 2.2, "contrast ratio" and "relative luminance". */
export function contrast(one: Colour, other: Colour): number {
  const [lighter, darker] = [luminance(one), luminance(other)].sort((a, b) => b - a);
  return ((lighter ?? 0) + 0.05) / ((darker ?? 0) + 0.05);
}

function luminance([red, green, blue]: Colour): number {
  const part = (value: number) =>
    value / 255 <= 0.04045 ? value / 255 / 12.92 : ((value / 255 + 0.055) / 1.055) ** 2.4;
  return 0.2126 * part(red) + 0.7152 * part(green) + 0.0722 * part(blue);
}
