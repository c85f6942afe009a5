/** The typeface of paper and preview, as files: plain and bold, each in two parts that hold different letters. */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

export type FontName = 'plain' | 'plainMore' | 'bold' | 'boldMore';
export type FontFiles = Readonly<Record<FontName, Uint8Array>>;

const PACKAGE = '@fontsource/atkinson-hyperlegible-next';
const FILES: Readonly<Record<FontName, string>> = {
  plain: 'atkinson-hyperlegible-next-latin-400-normal.woff',
  plainMore: 'atkinson-hyperlegible-next-latin-ext-400-normal.woff',
  bold: 'atkinson-hyperlegible-next-latin-700-normal.woff',
  boldMore: 'atkinson-hyperlegible-next-latin-ext-700-normal.woff',
};

/** @param resolveFrom a file beside which the package can be found; a bundle cannot be found from by its own place */
export function readFontFiles(resolveFrom: string): FontFiles {
  const folder = join(dirname(createRequire(resolveFrom).resolve(`${PACKAGE}/package.json`)), 'files');
  const read = (name: FontName) => new Uint8Array(readFileSync(join(folder, FILES[name])));
  return { plain: read('plain'), plainMore: read('plainMore'), bold: read('bold'), boldMore: read('boldMore') };
}
