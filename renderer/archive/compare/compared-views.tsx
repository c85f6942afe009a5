/** The flat views of two headers, front, side and top, all drawn to one scale. */

import { Fragment } from 'react';
import { type FlatView, flatViews, type Header } from '../../../core/index.ts';
import { type FlatBounds, type FlatDrawing, heightOf, largeDrawing, widthOf } from '../drawing-layout.ts';
import { FlatPicture } from '../flat-picture.tsx';

interface Props {
  readonly one: Header;
  readonly other: Header;
}

/** One of the three ways to look at both. */
interface Column {
  readonly name: FlatView['name'];
  readonly way: string;
  /** The wider of the two. */
  readonly widthMm: number;
}

interface Row {
  readonly header: Header;
  readonly views: readonly { readonly name: FlatView['name']; readonly drawing: FlatDrawing | null }[];
  /** The highest of its views. */
  readonly heightMm: number;
}

export function ComparedViews({ one, other }: Props) {
  const drawn = [one, other].map((header) => ({ header, views: flatViews(header).views }));
  const rows = drawn.map(({ header, views }) => rowOf(header, views));
  const columns = columnsOf(drawn.find(({ views }) => views.length > 0)?.views ?? [], rows);
  if (columns.length === 0) {
    return <p className="muted">Neither header has its ports placed, so neither has a shape to draw.</p>;
  }
  const widthMm = columns.reduce((sum, column) => sum + column.widthMm, 0);
  // Columns as wide to each other as what is in them: that is what gives all pictures one scale.
  const gridTemplateColumns = columns.map((column) => `minmax(0, ${column.widthMm}fr)`).join(' ');
  return (
    <section aria-label="Flat views" className="compare-views">
      <p className="muted">All pictures are drawn to one scale.</p>
      {rows.map(({ header, views, heightMm }) => (
        <Fragment key={header.id}>
          <h2>{header.name}</h2>
          {views.length === 0 ? <p className="muted">Its ports are not placed.</p> : null}
          <div className="compare-row" style={{ gridTemplateColumns }}>
            {columns.map((column) => {
              const drawing = views.find(({ name }) => name === column.name)?.drawing ?? null;
              if (drawing === null) return null;
              return (
                <figure key={column.name}>
                  <FlatPicture
                    drawing={drawing}
                    sight={centred(drawing.bounds, column.widthMm, heightMm)}
                    lineMm={widthMm / USUAL_WIDTH}
                    title={`${column.name} of ${header.name}`}
                  />
                  <figcaption className="muted">
                    {column.name}: {column.way}
                  </figcaption>
                </figure>
              );
            })}
          </div>
        </Fragment>
      ))}
    </section>
  );
}

/** Width of a row of pictures in CSS pixels at which its lines are one pixel. */
const USUAL_WIDTH = 1200;

function rowOf(header: Header, flat: readonly FlatView[]): Row {
  const views = flat.map((view) => ({ name: view.name, drawing: largeDrawing(view) }));
  const heights = views.map(({ drawing }) => (drawing === null ? 0 : heightOf(drawing.bounds)));
  return { header, views, heightMm: Math.max(0, ...heights) };
}

function columnsOf(views: readonly FlatView[], rows: readonly Row[]): readonly Column[] {
  return views.map(({ name, way }) => {
    const drawings = rows.flatMap((row) =>
      row.views.filter((view) => view.name === name).map(({ drawing }) => drawing),
    );
    return {
      name,
      way,
      widthMm: Math.max(...drawings.map((drawing) => (drawing === null ? 0 : widthOf(drawing.bounds)))),
    };
  });
}

/** Room of the given size, the drawing in its middle. */
function centred({ leftMm, rightMm, lowMm, highMm }: FlatBounds, widthMm: number, heightMm: number): FlatBounds {
  const [x, y] = [(leftMm + rightMm) / 2, (lowMm + highMm) / 2];
  return { leftMm: x - widthMm / 2, rightMm: x + widthMm / 2, lowMm: y - heightMm / 2, highMm: y + heightMm / 2 };
}
