/**
 * What core uses of papaparse, in its own words: the published types bring Node's and the browser's globals along, which
 * core must not know. `core/tsconfig.json` points the name here.
 */

interface ParseOptions {
  readonly delimiter: string;
  readonly newline: '\n';
  /** At most so many rows. */
  readonly preview?: number;
  /** Quotes mean nothing: they are characters of the cell that they are in. */
  readonly fastMode?: true;
}

interface ParsedRows {
  readonly data: readonly (readonly string[])[];
}

interface UnparseOptions {
  readonly delimiter: string;
  readonly newline: '\n' | '\r\n';
  /** Text that it matches gets an apostrophe in front. */
  readonly escapeFormulae: RegExp;
}

declare const Papa: {
  parse(text: string, options: ParseOptions): ParsedRows;
  unparse(rows: readonly (readonly string[])[], options: UnparseOptions): string;
};

export = Papa;
