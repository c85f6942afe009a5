/** Pulses: when they come to each collector, and what a deviation in length is worth in time and degrees of the crank. */

import { useMemo } from 'react';
import {
  asBuilt,
  engineOf,
  formatLength,
  type Header,
  type LengthStyle,
  type Primary,
  type PulseTiming,
  pulseTiming,
} from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { FigureText } from '../ui/figure-text.tsx';
import { primaryTitle } from '../ui/words/verdict-words.ts';
import { EngineFields } from './engine-fields.tsx';
import {
  collectorSentence,
  collectorTitle,
  degreeWords,
  furthestOff,
  lateDegreeWords,
  lengthOffWords,
  timeWords,
} from './gas-words.ts';
import { PulseChart } from './pulse-chart.tsx';
import './gas.css';

export interface PulsesProps {
  readonly session: HeaderSession;
  readonly header: Header;
}

export function PulsesPanel({ session, header }: PulsesProps) {
  const timing = useMemo(
    () => pulseTiming(header, { engine: engineOf(header), measuredMm: measuredLengths(header) }),
    [header],
  );
  return (
    <div className="gas">
      <Finding timing={timing} />
      {timing.collectors.map((collector) => {
        const title = collectorTitle(collector, timing.collectors.length);
        return (
          <figure key={collector.collectorId ?? 'none'} className="gas-collector">
            <h3 className="gas-heading">{title}</h3>
            <PulseChart collector={collector} title={`${title}: pulses over 720 degrees of the crank`} />
            <figcaption>{collectorSentence(collector)}</figcaption>
          </figure>
        );
      })}
      <PulseTable timing={timing} style={header.settings.display} />
      <LeftOut timing={timing} />
      <section className="gas" aria-label="Engine and gas">
        <h3 className="gas-heading">Engine and gas</h3>
        <EngineFields session={session} header={header} />
      </section>
      <p className="view-note">
        A real pulse runs faster than sound, rides on gas that moves and cools on its way: these are figures to compare
        by. Lengths are as measured where a primary was, else those of its pieces.
      </p>
    </div>
  );
}

/** What was measured on finished tubes, by primary. */
function measuredLengths(header: Header): ReadonlyMap<string, number> {
  return new Map(
    header.primaries.flatMap((primary): readonly (readonly [string, number])[] => {
      const { centreline } = asBuilt(header, primary);
      return centreline === null ? [] : [[primary.id, centreline.lengthMm]];
    }),
  );
}

function Finding({ timing }: { readonly timing: PulseTiming }) {
  const most = furthestOff(timing.collectors.flatMap(({ pulses }) => pulses));
  if (most === null) return null;
  const isOff = Math.abs(most.lateDeg) >= 0.05;
  const way = most.lateDeg < 0 ? 'early' : 'late';
  const words = isOff
    ? `${primaryTitle(most.name)} is furthest off: ${lateDegreeWords(Math.abs(most.lateDeg)).replace('+', '')} ${way}, ${timeWords(Math.abs(most.lateS)).replace('+', '')}.`
    : 'All pulses come as with equal lengths.';
  return (
    <p className="gas-finding" role="status">
      {words}
    </p>
  );
}

function PulseTable({ timing, style }: { readonly timing: PulseTiming; readonly style: LengthStyle }) {
  const pulses = timing.collectors.flatMap((collector) => collector.pulses).toSorted((a, b) => a.firesDeg - b.firesDeg);
  if (pulses.length === 0) return null;
  return (
    <div className="table-scroll">
      <table className="table">
        <caption>
          Against a length of <FigureText text={formatLength(timing.comparedWithMm, style)} />, in firing order
        </caption>
        <thead>
          <tr>
            <th scope="col">Primary</th>
            <th scope="col" className="number">
              Fires
            </th>
            <th scope="col" className="number">
              Off by
            </th>
            <th scope="col" className="number">
              Time
            </th>
            <th scope="col" className="number">
              Crank
            </th>
          </tr>
        </thead>
        <tbody>
          {pulses.map((pulse) => (
            <tr key={pulse.primaryId}>
              <th scope="row">{pulse.name}</th>
              <td className="number">{degreeWords(pulse.firesDeg)}</td>
              <td className="number">
                <FigureText text={lengthOffWords(pulse.lengthMm - timing.comparedWithMm, style)} />
              </td>
              <td className="number">{timeWords(pulse.lateS)}</td>
              <td className="number">{lateDegreeWords(pulse.lateDeg)}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </div>
  );
}

const namesOf = (primaries: readonly Primary[]) => primaries.map(({ name }) => primaryTitle(name)).join(', ');

function LeftOut({ timing: { withoutCylinder, sameCylinder } }: { readonly timing: PulseTiming }) {
  return (
    <>
      {withoutCylinder.length === 0 ? null : (
        <p className="view-note">
          Left out, since no cylinder of the firing order is in the name: {namesOf(withoutCylinder)}. Name it by its
          cylinder’s number, or type the firing order of the whole engine.
        </p>
      )}
      {sameCylinder.length === 0 ? null : (
        <p className="view-note">Left out, since another has the same cylinder: {namesOf(sameCylinder)}.</p>
      )}
    </>
  );
}
