/** A page as it will print, drawn of the same lines and words as the file. */

import type { ResponseOf } from '../../electron/bridge/contract.ts';

export type Page = ResponseOf<'drawPages'>['pages'][number];
type Mark = Page['marks'][number];

/** Paper and ink, whatever the theme: this is what lies in the printer. */
const INKS = { black: '#000000', grey: '#6e6e6e', pale: '#e8e8e8', white: '#ffffff' } as const;

interface Props {
  readonly page: Page;
  /** "Page 2 of 5". */
  readonly name: string;
}

export function PagePicture({ page, name }: Props) {
  const { widthMm, heightMm, marks } = page;
  return (
    <svg className="sheet-page" role="img" aria-label={name} viewBox={`0 0 ${widthMm} ${heightMm}`}>
      <rect width={widthMm} height={heightMm} fill={INKS.white} />
      {marks.map((mark, at) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a mark is known by its place alone
        <MarkPicture key={at} mark={mark} />
      ))}
    </svg>
  );
}

function MarkPicture({ mark }: { readonly mark: Mark }) {
  return mark.kind === 'line' ? <LinePicture line={mark} /> : <TextPicture text={mark} />;
}

function LinePicture({ line }: { readonly line: Extract<Mark, { kind: 'line' }> }) {
  const { points, isClosed, widthMm, dashMm, ink, fill } = line;
  const path = points.map(([x, y], at) => `${at === 0 ? 'M' : 'L'}${x} ${y}`).join('');
  return (
    <path
      d={isClosed ? `${path}Z` : path}
      fill={fill === null ? 'none' : INKS[fill]}
      stroke={widthMm === 0 ? 'none' : INKS[ink]}
      strokeWidth={widthMm}
      strokeLinejoin="round"
      strokeDasharray={dashMm === 0 ? undefined : dashMm}
    />
  );
}

const ANCHORS = { start: 'start', middle: 'middle', end: 'end' } as const;

function TextPicture({ text }: { readonly text: Extract<Mark, { kind: 'text' }> }) {
  const [x, y] = text.at;
  return (
    <text
      x={x}
      y={y}
      fontSize={text.sizeMm}
      fontWeight={text.isBold ? 700 : 400}
      textAnchor={ANCHORS[text.align]}
      fill={INKS[text.ink]}
      transform={text.isTurned ? `rotate(90 ${x} ${y})` : undefined}
    >
      {text.text}
    </text>
  );
}
