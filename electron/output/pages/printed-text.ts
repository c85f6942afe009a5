/** Text as paper takes it: in letters that a typeface can have, with spaces that are seen as such. */

const PLAIN = /^[\x20-\x7e]*$/;

/** 1/7 to 7/8, written as one letter, which few typefaces have; and the digit before one. */
const FRACTIONS = /(\d?)([\u2150-\u215e])/g;
/** A thin space is too narrow on paper: 1 13/16 must not look like 113/16. Nor may a line break there. */
const THIN = /[\u2009\u202f]/g;
const WIDE = /[\n\t\u1680\u2000-\u2008\u200a\u2028\u2029\u205f\u3000]/g;
/** Marks that tell a screen how to join or order letters, and are none themselves. */
const UNSEEN = /\p{Default_Ignorable_Code_Point}/gu;

export function printedText(text: string): string {
  if (PLAIN.test(text)) return text;
  return text
    .normalize('NFC')
    .replaceAll(FRACTIONS, (_, digit: string, fraction: string) => {
      const written = fraction.normalize('NFKC').replace('\u2044', '/');
      return digit === '' ? written : `${digit}\u00a0${written}`;
    })
    .replaceAll(THIN, '\u00a0')
    .replaceAll(WIDE, ' ')
    .replaceAll(UNSEEN, '');
}
