/** The flat views of two headers, front, side and top, all drawn to one scale. */

import { flatViews, type Header } from '../../../core/index.ts';
import { type FlatBounds, type FlatDrawing, flatDrawing, heightOf, widthOf } from '../drawing-layout.ts';
import { FlatPicture } from '../flat-picture.tsx';

interface Props {
  readonly one: Header;
  readonly other: Header;
}

interface DrawnView {
  readonly name: string;
  readonly way: string;
  readonly drawings: readonly (FlatDrawing | null)[];
}

export function ComparedViews({ one, other }: Props) {
  const views = drawnViews(one, other);
  const drawings = views.flatMap((view) => view.drawings.filter((drawing) => drawing !== null));
  if (drawings.length === 0) {
    return <p className="muted">Neither header has its ports placed, so neither has a shape to draw.</p>;
  }
  const widthMm = Math.max(...drawings.map(({ bounds }) => widthOf(bounds)));
  return (
    <section className="compare-views" aria-label="Flat views">
      {views.map(({ name, way, drawings: pair }) => (
        <div key={name} className="compare-view">
          <h2>
            {name} <span className="muted">{way}</span>
          </h2>
          <div className="compare-pair">
            {pair.map((drawing, place) => (
              <Picture
                // biome-ignore lint/suspicious/noArrayIndexKey: the first header is on the left, the other on the right
                key={place}
                drawing={drawing}
                name={`${name} of ${(place === 0 ? one : other).name}`}
                sight={sightOf(pair, widthMm)}
              />
            ))}
          </div>
        </div>
      ))}
      <p className="muted">All pictures are drawn to one scale.</p>
    </section>
  );
}

function drawnViews(one: Header, other: Header): readonly DrawnView[] {
  const [ones, others] = [flatViews(one).views, flatViews(other).views];
  const named = ones.length > 0 ? ones : others;
  return named.map(({ name, way }) => ({
    name,
    way,
    drawings: [ones, others].map((views) => {
      const view = views.find((candidate) => candidate.name === name);
      return view === undefined ? null : flatDrawing(view);
    }),
  }));
}

/** As wide for all pictures, as high for both of a pair: that is what gives them one scale. */
interface SightSize {
  readonly widthMm: number;
  readonly heightMm: number;
}

function sightOf(pair: readonly (FlatDrawing | null)[], widthMm: number): SightSize {
  return { widthMm, heightMm: Math.max(...pair.map((drawing) => (drawing === null ? 0 : heightOf(drawing.bounds)))) };
}

/** Room of the given size, the drawing in its middle. */
function centred({ leftMm, rightMm, lowMm, highMm }: FlatBounds, { widthMm, heightMm }: SightSize): FlatBounds {
  const [x, y] = [(leftMm + rightMm) / 2, (lowMm + highMm) / 2];
  return { leftMm: x - widthMm / 2, rightMm: x + widthMm / 2, lowMm: y - heightMm / 2, highMm: y + heightMm / 2 };
}

/** Width of a picture in CSS pixels at which its lines are one pixel. */
const USUAL_WIDTH = 480;

interface PictureProps {
  readonly drawing: FlatDrawing | null;
  readonly name: string;
  readonly sight: SightSize;
}

function Picture({ drawing, name, sight }: PictureProps) {
  if (drawing === null) return <p className="muted">{name}: its ports are not placed.</p>;
  return (
    <FlatPicture
      drawing={drawing}
      sight={centred(drawing.bounds, sight)}
      lineMm={sight.widthMm / USUAL_WIDTH}
      title={name}
    />
  );
}
