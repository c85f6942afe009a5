/** Cuts a typed length or angle into numbers, marks and words; anything not on the list becomes `other`. */

export type TokenKind = 'number' | 'vulgar' | 'degree' | 'inch' | 'foot' | 'slash' | 'dash' | 'plus' | 'word' | 'other';

export interface Token {
  readonly kind: TokenKind;
  readonly text: string;
  /** Where the token starts in the text, in UTF-16 units; `end` is one past its last. */
  readonly start: number;
  readonly end: number;
  /** Whether white space stands before it. */
  readonly spaced: boolean;
}

/** Numerator and denominator of the single-character fractions that keyboards and word processors make. */
export const VULGAR_FRACTIONS: ReadonlyMap<string, readonly [bigint, bigint]> = new Map([
  ['½', [1n, 2n]],
  ['¼', [1n, 4n]],
  ['¾', [3n, 4n]],
  ['⅛', [1n, 8n]],
  ['⅜', [3n, 8n]],
  ['⅝', [5n, 8n]],
  ['⅞', [7n, 8n]],
]);

/**
 * One token with the white space before it. Each alternative is told by its first character and takes a plain run,
 * so that reading is linear. `\s` holds the no-break, thin and narrow spaces too. Quotes that word processors bend and
 * two single ones in a row are taken for the marks that were meant.
 */
const TOKEN = new RegExp(
  [
    '(?<space>\\s*)(?:',
    '(?<number>[0-9]+(?:\\.[0-9]*)?|\\.[0-9]+)',
    '|(?<vulgar>[½¼¾⅛⅜⅝⅞])',
    '|(?<degree>[°º˚])',
    "|(?<inch>[\"″“”]|''|′′|’’)",
    "|(?<foot>['′‘’])",
    '|(?<slash>[/⁄∕])',
    '|(?<dash>[-\u2212\u2010\u2011\u2013])',
    '|(?<plus>\\+)',
    '|(?<word>\\p{L}+)',
    '|(?<other>[^\\s]))',
  ].join(''),
  'uy',
);

/** What an alternative of `TOKEN` matched, under its name. */
type TokenGroups = { readonly [name in TokenKind | 'space']?: string | undefined };

/** All tokens of the text in order. Never fails; time and memory linear in the length. */
export function tokensOf(text: string): readonly Token[] {
  const tokens: Token[] = [];
  TOKEN.lastIndex = 0;
  for (let match = TOKEN.exec(text); match !== null; match = TOKEN.exec(text)) {
    const groups: TokenGroups = match.groups ?? {};
    const space = groups.space ?? '';
    const end = TOKEN.lastIndex;
    const start = match.index + space.length;
    tokens.push({ kind: kindOf(groups), text: text.slice(start, end), start, end, spaced: space.length > 0 });
  }
  return tokens;
}

const KINDS = ['number', 'vulgar', 'degree', 'inch', 'foot', 'slash', 'dash', 'plus', 'word'] as const;

function kindOf(groups: TokenGroups): TokenKind {
  return KINDS.find((kind) => groups[kind] !== undefined) ?? 'other';
}
