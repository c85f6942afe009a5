/** Closure follows tolerance and slip until somebody sets it. */

import { describe, expect, it } from 'vitest';
import { setSlipEdit } from '../../../core/edits/collector-edits.ts';
import type { Edit } from '../../../core/edits/edit.ts';
import { setClosureEdit, setToleranceEdit } from '../../../core/edits/header-edits.ts';
import { defaultClosure } from '../../../core/header/default-closure.ts';
import type { Header, Inlet } from '../../../core/header/header.ts';
import { newHeader } from '../../../core/header/new-header.ts';
import { applyEdit, demoHeader } from '../../../core/index.ts';
import { inches, millimetres, mmOf } from '../../../core/units/length.ts';

const within = (minusMm: number, plusMm: number) => ({ minus: millimetres(minusMm), plus: millimetres(plusMm) });

function applied(header: Header, edit: Edit): Header {
  const done = applyEdit(header, edit);
  if (!done.ok) throw new Error(JSON.stringify(done.problems));
  return done.value.header;
}

const closureOf = ({ settings: { closure } }: Header) => [mmOf(closure.gap), closure.tiltDeg];

function inletOf(id: string, slipMm: number): Inlet {
  return { id, name: id, place: null, slip: { deeper: millimetres(slipMm), shallower: millimetres(0) } };
}

/** An eighth of an inch either way, and two inlets without slip. */
function headerWithInlets(): Header {
  const inlets = [inletOf('a', 0), inletOf('b', 0)];
  return { ...newHeader({ id: 'h', name: 'H' }), collectors: [{ id: 'c', name: 'C', inlets }] };
}

function slipped(header: Header, id: string, slipMm: number): Header {
  const [collector] = header.collectors;
  const inlet = collector?.inlets.find((one) => one.id === id);
  if (collector === undefined || inlet === undefined) throw new Error(id);
  const slip = { ...inlet.slip, deeper: millimetres(slipMm) };
  return applied(header, setSlipEdit(header, collector, { ...inlet, slip }));
}

describe('the closure that nobody has typed', () => {
  // Worked by hand from the rule: a sixth or a third of the narrower side, to a tenth; half a degree a millimetre.
  it.each([
    [3.175, 3.175, false, 0.5, 0.25],
    [6, 3, false, 0.5, 0.25],
    [1.5, 1.5, false, 0.3, 0.15],
    [0.5, 0.5, false, 0.2, 0.1],
    [0, 3, false, 0.2, 0.1],
    [12, 12, false, 1, 0.5],
    [3.175, 3.175, true, 1.1, 0.55],
    [12, 12, true, 1.5, 0.75],
  ])('of a tolerance of -%s +%s mm, every inlet with slip: %s', (minus, plus, allSlip, gapMm, tiltDeg) => {
    expect(defaultClosure(within(minus, plus), allSlip)).toEqual({ gap: millimetres(gapMm), tiltDeg });
  });

  it('goes along with the tolerance, as one step', () => {
    const header = newHeader({ id: 'h', name: 'H' });
    expect(closureOf(header)).toEqual([0.5, 0.25]);
    const finer = applied(header, setToleranceEdit(header, { minus: inches(1 / 16) }));
    expect(closureOf(finer)).toEqual([0.3, 0.15]);
    expect(closureOf(applied(finer, setToleranceEdit(finer, { minus: inches(0.125) })))).toEqual([0.5, 0.25]);
  });

  it('goes along once every inlet lets its tube slip, and back when one does not', () => {
    const one = slipped(headerWithInlets(), 'a', 6);
    expect(closureOf(one)).toEqual([0.5, 0.25]);
    const both = slipped(one, 'b', 6);
    expect(closureOf(both)).toEqual([1.1, 0.55]);
    expect(closureOf(slipped(both, 'a', 0))).toEqual([0.5, 0.25]);
  });

  it('is where the next header starts, which has no inlets yet', () => {
    const both = slipped(slipped(headerWithInlets(), 'a', 6), 'b', 6);
    expect(closureOf(newHeader({ id: 'n', name: 'N' }, both.settings))).toEqual([0.5, 0.25]);
  });
});

describe('a closure that was typed, or stands in a header from before', () => {
  const typed = () => {
    const header = headerWithInlets();
    return applied(header, setClosureEdit(header, { gap: millimetres(0.7) }));
  };

  it('stays, whatever becomes of tolerance and slip', () => {
    const header = typed();
    expect(
      closureOf(applied(header, setToleranceEdit(header, { minus: millimetres(1), plus: millimetres(1) }))),
    ).toEqual([0.7, 0.25]);
    expect(closureOf(slipped(slipped(header, 'a', 6), 'b', 6))).toEqual([0.7, 0.25]);
  });

  it('is taken over by the next header', () => {
    expect(closureOf(newHeader({ id: 'n', name: 'N' }, typed().settings))).toEqual([0.7, 0.25]);
  });

  it('is not what the rule gives, in the demo: its inlets slip, and it keeps half a millimetre', () => {
    const demo = demoHeader('d');
    expect(closureOf(demo)).toEqual([0.5, 0.25]);
    expect(closureOf(applied(demo, setToleranceEdit(demo, { plus: inches(0.25) })))).toEqual([0.5, 0.25]);
  });
});
