/** Lengths as text whose fractions are smaller and raised: 5 1/2 must never read as 51/2, at arm's length neither. */

import { Fragment, type ReactNode } from 'react';

/** A fraction, with the space between it and its whole where it has one. Angles in a row, as 27/54/27, are none. */
const FRACTION = /(?:(?<=\d)[\u2009 ]|(?<![\d/]))\d+\/\d+(?![\d/])/g;

interface Part {
  readonly text: string;
  readonly isFraction: boolean;
}

/** The text cut at its fractions. Joined again it is the text, with plain spaces, so that what is copied reads `5 1/2`. */
export function figureParts(text: string): readonly Part[] {
  const parts: Part[] = [];
  let done = 0;
  for (const found of text.matchAll(FRACTION)) {
    if (found.index > done) parts.push({ text: text.slice(done, found.index), isFraction: false });
    parts.push({ text: found[0].replace('\u2009', ' '), isFraction: true });
    done = found.index + found[0].length;
  }
  if (done < text.length) parts.push({ text: text.slice(done), isFraction: false });
  return parts;
}

/** Any text with the fractions in it set apart. For HTML. */
export function FigureText({ text }: { readonly text: string }) {
  return setApart(text, (part) => <span className="fraction">{part}</span>);
}

/** The same inside an SVG text element. */
export function SvgFigureText({ text }: { readonly text: string }) {
  return setApart(text, (part) => <tspan className="fraction">{part}</tspan>);
}

function setApart(text: string, draw: (fraction: string) => ReactNode): ReactNode {
  return figureParts(text).map((part, index) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: parts of one text have no other name
    <Fragment key={index}>{part.isFraction ? draw(part.text) : part.text}</Fragment>
  ));
}
