/** Lengths as text with the fraction set a little apart from the whole: 5 1/2 must never read as 51/2. */

const THIN_SPACE = '\u2009';

/** Any text; each thin space in it, as `formatLength` puts after a whole, gets room. For HTML. */
export function FigureText({ text }: { readonly text: string }) {
  const [whole, ...fractions] = text.split(THIN_SPACE);
  return (
    <>
      {whole}
      {fractions.map((fraction, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: parts of one text have no other name
        <span key={index} className="fraction">
          {THIN_SPACE}
          {fraction}
        </span>
      ))}
    </>
  );
}

/** The same inside an SVG text element. */
export function SvgFigureText({ text }: { readonly text: string }) {
  const [whole, ...fractions] = text.split(THIN_SPACE);
  return (
    <>
      {whole}
      {fractions.map((fraction, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: parts of one text have no other name
        <tspan key={index} dx="0.15em">
          {THIN_SPACE}
          {fraction}
        </tspan>
      ))}
    </>
  );
}
