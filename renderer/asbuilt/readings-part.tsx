/** The readings of the primary in hand: typed as they were read, each with how far it may be out. */

import {
  asBuilt,
  type Length,
  type LengthUnit,
  MEASURE_KINDS,
  type MeasureKind,
  type Measurement,
  type Problem,
  parseLength,
  parseVolume,
  type Result,
  setMeasurementEdit,
  typedText,
  unitOf,
  type Volume,
  volumeText,
} from '../../core/index.ts';
import { TakenField } from '../ui/fields/length-field.tsx';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import type { AsBuiltProps } from './as-built-props.ts';
import { METHOD_HINTS, METHOD_WORDS, readingSentence, readingVerdict } from './as-built-words.ts';

/** How far a reading may be out until something else is typed: as well as each is usually read (common practice). */
const FIRST_WITHIN: Readonly<Record<MeasureKind, Readonly<Record<LengthUnit, Length>>>> = {
  outsideTape: { in: { value: 1 / 8, unit: 'in' }, mm: { value: 3, unit: 'mm' } },
  centreline: { in: { value: 1 / 4, unit: 'in' }, mm: { value: 6, unit: 'mm' } },
  filling: { in: { value: 0, unit: 'in' }, mm: { value: 0, unit: 'mm' } },
};
const FIRST_VOLUME_WITHIN: Volume = { value: 10, unit: 'ml' };

export function ReadingsPart(props: AsBuiltProps) {
  const { header, primary } = props;
  return (
    <section className="asbuilt-part" aria-label={`Measured on ${primaryTitle(primary.name)}`}>
      <h3 className="asbuilt-heading">{primaryTitle(primary.name)}, as measured</h3>
      {MEASURE_KINDS.map((kind) => (
        <Reading key={kind} {...props} kind={kind} canType={header.state === 'open'} />
      ))}
    </section>
  );
}

interface ReadingProps extends AsBuiltProps {
  readonly kind: MeasureKind;
  readonly canType: boolean;
}

function Reading({ kind, canType, ...props }: ReadingProps) {
  const { header, primary } = props;
  const { display } = header.settings;
  const built = asBuilt(header, primary).lengths.find((length) => length.kind === kind);
  if (!canType && built === undefined) return null;
  return (
    <div className="asbuilt-reading">
      {canType ? <ReadingFields {...props} kind={kind} /> : <p className="asbuilt-method">{METHOD_WORDS[kind]}</p>}
      {built === undefined ? (
        <p className="view-note">{METHOD_HINTS[kind]}</p>
      ) : (
        <p role="status">
          <FigureText text={readingSentence(built, display)} />{' '}
          <strong>
            <FigureText text={readingVerdict(built, display)} />.
          </strong>
        </p>
      )}
    </div>
  );
}

function ReadingFields({ session, header, primary, kind }: Omit<ReadingProps, 'canType'>) {
  const unit = unitOf(header.settings.display);
  const reading = primary.measured?.find((one) => one.kind === kind);
  const set = (next: Measurement | null): Result<unknown, Problem> =>
    session.apply(setMeasurementEdit(primary, kind, next));
  const shownUnit = kind === 'filling' ? 'ml' : unit;
  return (
    <div className="asbuilt-fields">
      <TakenField
        label={`${METHOD_WORDS[kind]} (${shownUnit})`}
        stored={reading === undefined ? '' : figureText(reading, 'figure', unit)}
        take={(text) => {
          if (text.trim() === '') return set(null);
          const read = readFigure(kind, text, { reading, unit });
          return read.ok ? set(read.value) : read;
        }}
      />
      {reading === undefined ? null : (
        <TakenField
          label={`within ± (${shownUnit})`}
          stored={figureText(reading, 'within', unit)}
          take={(text) => {
            const read = readWithin(reading, text, unit);
            return read.ok ? set(read.value) : read;
          }}
        />
      )}
    </div>
  );
}

function figureText(reading: Measurement, part: 'figure' | 'within', unit: LengthUnit): string {
  if (reading.kind === 'filling') return volumeText(part === 'figure' ? reading.volume : reading.within, 'ml');
  return typedText(part === 'figure' ? reading.length : reading.within, unit);
}

interface Before {
  readonly reading: Measurement | undefined;
  readonly unit: LengthUnit;
}

/** The reading with this figure; how far it may be out stays, or starts as is usual. */
function readFigure(kind: MeasureKind, text: string, { reading, unit }: Before): Result<Measurement, Problem> {
  if (kind === 'filling') {
    const read = parseVolume(withDecimalPoints(text), 'ml');
    const within = reading?.kind === 'filling' ? reading.within : FIRST_VOLUME_WITHIN;
    return read.ok ? { ok: true, value: { kind, volume: read.value, within } } : read;
  }
  const read = parseLength(withDecimalPoints(text), unit);
  const within = reading === undefined || reading.kind === 'filling' ? FIRST_WITHIN[kind][unit] : reading.within;
  return read.ok ? { ok: true, value: { kind, length: read.value, within } } : read;
}

function readWithin(reading: Measurement, text: string, unit: LengthUnit): Result<Measurement, Problem> {
  if (reading.kind === 'filling') {
    const read = parseVolume(withDecimalPoints(text), 'ml');
    return read.ok ? { ok: true, value: { ...reading, within: read.value } } : read;
  }
  const read = parseLength(withDecimalPoints(text), unit);
  return read.ok ? { ok: true, value: { ...reading, within: read.value } } : read;
}
