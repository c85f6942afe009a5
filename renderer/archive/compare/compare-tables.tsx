/** The figures of two headers as tables: one column each, and by how much they differ. */

import type { ReactNode } from 'react';
import {
  type Both,
  type ComparedFigure,
  type ComparedPrimary,
  finerStyle,
  formatLength,
  isShownAsZero,
  type LengthStyle,
  signedLength,
} from '../../../core/index.ts';
import { FigureText } from '../../ui/figure-text.tsx';
import { primaryTitle } from '../../ui/words/verdict-words.ts';

interface Shown {
  /** Of the two headers, for the headings of the columns. */
  readonly names: Both<string>;
  readonly style: LengthStyle;
}

export function ComparedFigures({ figures, names, style }: Shown & { readonly figures: readonly ComparedFigure[] }) {
  return (
    <div className="table-scroll">
      <table className="table compare-table">
        <caption className="visually-hidden">Figures of both headers</caption>
        <thead>
          <tr>
            <th scope="col">Figure</th>
            <NameHeads names={names} />
            <th scope="col" className="number">
              Difference
            </th>
          </tr>
        </thead>
        <tbody>
          {figures.map((figure) => (
            <tr key={figure.name}>
              <th scope="row">{figure.name}</th>
              <td className="number">{valueText(figure, 0, styleOf(figure, style))}</td>
              <td className="number">{valueText(figure, 1, styleOf(figure, style))}</td>
              <td className="number">{differenceText(figure, styleOf(figure, style))}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

function NameHeads({ names, after = '' }: { readonly names: Both<string>; readonly after?: string }) {
  return names.map((name, place) => (
    // biome-ignore lint/suspicious/noArrayIndexKey: two headers may be called alike; their place is what they are
    <th key={place} scope="col" className="number compare-name" title={name}>
      {name}
      {after}
    </th>
  ));
}

function styleOf(figure: ComparedFigure, style: LengthStyle): LengthStyle {
  return figure.kind === 'length' && figure.isFine ? finerStyle(style) : style;
}

/** Nothing to show is said as such: an empty cell could be a figure that was lost. */
const NONE = 'none';
const NO_PLAN = 'no plan';

function valueText(figure: ComparedFigure, place: 0 | 1, style: LengthStyle): ReactNode {
  const value = figure.values[place];
  // Of counts only the saw cuts may be missing: nobody counted them where no plan was carried out.
  if (value === null) return <span className="muted">{figure.kind === 'count' ? NO_PLAN : NONE}</span>;
  if (figure.kind === 'length' && typeof value === 'number') return <LengthText mm={value} style={style} />;
  return value;
}

function differenceText(figure: ComparedFigure, style: LengthStyle): ReactNode {
  switch (figure.kind) {
    case 'words':
      return figure.isSame ? 'same' : 'another';
    case 'length':
      return <Difference mm={figure.byMm} style={style} />;
    case 'count':
      return figure.by === null ? '' : signedCount(figure.by);
  }
}

function signedCount(by: number): string {
  if (by === 0) return 'same';
  return by > 0 ? `+${by}` : `\u2212${-by}`;
}

function LengthText({ mm, style }: { readonly mm: number; readonly style: LengthStyle }) {
  return <FigureText text={formatLength(mm, style)} />;
}

function Difference({ mm, style }: { readonly mm: number | null; readonly style: LengthStyle }) {
  if (mm === null) return null;
  return isShownAsZero(mm, style) ? 'same' : <FigureText text={signedLength(mm, style)} />;
}

export function ComparedPrimaries({
  primaries,
  names,
  style,
}: Shown & { readonly primaries: readonly ComparedPrimary[] }) {
  const isBuilt = primaries.some(({ builtMm }) => builtMm.some((mm) => mm !== null));
  if (primaries.length === 0) return null;
  return (
    <div className="table-scroll">
      <table className="table compare-table">
        <caption className="visually-hidden">Length of each primary, by its port</caption>
        <thead>
          <tr>
            <th scope="col">Primary</th>
            <NameHeads names={names} />
            <th scope="col" className="number">
              Difference
            </th>
            {isBuilt ? (
              <>
                <NameHeads names={names} after=", as built" />
                <th scope="col" className="number">
                  Difference
                </th>
              </>
            ) : null}
          </tr>
        </thead>
        <tbody>
          {primaries.map((primary, place) => (
            // biome-ignore lint/suspicious/noArrayIndexKey: pairs have no other identity than their place
            <tr key={place}>
              <th scope="row">{pairTitle(primary.names)}</th>
              <LengthCells lengths={primary.lengthsMm} byMm={primary.byMm} style={style} />
              {isBuilt ? <LengthCells lengths={primary.builtMm} byMm={primary.builtByMm} style={style} /> : null}
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

interface CellsProps {
  readonly lengths: Both<number | null>;
  readonly byMm: number | null;
  readonly style: LengthStyle;
}

function LengthCells({ lengths, byMm, style }: CellsProps) {
  return (
    <>
      <td className="number">{lengthOrNone(lengths[0], style)}</td>
      <td className="number">{lengthOrNone(lengths[1], style)}</td>
      <td className="number">
        <Difference mm={byMm} style={style} />
      </td>
    </>
  );
}

function lengthOrNone(mm: number | null, style: LengthStyle): ReactNode {
  return mm === null ? <span className="muted">{NONE}</span> : <LengthText mm={mm} style={style} />;
}

function pairTitle([one, other]: Both<string | null>): string {
  const isSame = one !== null && other !== null && one.trim().toLowerCase() === other.trim().toLowerCase();
  if (isSame || other === null) return primaryTitle(one ?? '');
  return one === null ? primaryTitle(other) : `${primaryTitle(one)} and ${primaryTitle(other)}`;
}
