/**
 * The typefaces of paper and preview, as files, plain and bold. Each typeface comes in parts that hold different letters: the
 * program's own first, then one for the letters that it lacks, then one for arrows and other signs, which has no bold.
 */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';

export interface FontFile {
  /** As pages and PDFs call it: `noto-sans-greek-700`. */
  readonly name: string;
  readonly bytes: Uint8Array;
  /** Not for letters: it has some of scripts whose letters it cannot join. */
  readonly signsOnly: boolean;
}

/** In the order in which letters are looked for. */
export interface FontFiles {
  readonly plain: readonly FontFile[];
  readonly bold: readonly FontFile[];
}

const TYPEFACES = [
  { name: 'atkinson-hyperlegible-next', parts: ['latin', 'latin-ext'], bold: 700, signsOnly: false },
  {
    name: 'noto-sans',
    parts: ['latin', 'latin-ext', 'cyrillic', 'greek', 'cyrillic-ext', 'greek-ext', 'vietnamese'],
    bold: 700,
    signsOnly: false,
  },
  { name: 'noto-sans-math', parts: ['latin'], bold: 400, signsOnly: true },
] as const;

/** @param resolveFrom a file beside which the packages can be found; a bundle cannot be found from by its own place */
export function readFontFiles(resolveFrom: string): FontFiles {
  const { resolve } = createRequire(resolveFrom);
  const filesOf = (weightOf: (typeface: (typeof TYPEFACES)[number]) => number) =>
    TYPEFACES.flatMap((typeface) => {
      const folder = join(dirname(resolve(`@fontsource/${typeface.name}/package.json`)), 'files');
      return typeface.parts.map((part): FontFile => {
        const weight = weightOf(typeface);
        const name = `${typeface.name}-${part}-${weight}`;
        const bytes = new Uint8Array(readFileSync(join(folder, `${name}-normal.woff`)));
        return { name, bytes, signsOnly: typeface.signsOnly };
      });
    });
  return { plain: filesOf(() => 400), bold: filesOf(({ bold }) => bold) };
}
