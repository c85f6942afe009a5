/** Fields that are not there until they are filled: readings, tolerances, engine. */

import { describe, expect, it } from 'vitest';
import { describeProblem } from '../../../core/describe-problem.ts';
import { applyEdit } from '../../../core/edits/apply-edit.ts';
import { mirroredCopy } from '../../../core/edits/bank-edits.ts';
import { describeEdit } from '../../../core/edits/describe-edit.ts';
import type { Edit } from '../../../core/edits/edit.ts';
import { setEngineEdit, setTolerancesEdit } from '../../../core/edits/header-edits.ts';
import { duplicatePrimaryEdit, setMeasurementEdit } from '../../../core/edits/primary-edits.ts';
import { engineOf } from '../../../core/gas/usual-engine.ts';
import { demoHeader } from '../../../core/header/demo-header.ts';
import type { Engine } from '../../../core/header/engine.ts';
import { readHeader, writeHeader } from '../../../core/header/file/header-file.ts';
import type { Header, Primary } from '../../../core/header/header.ts';
import type { Measurement } from '../../../core/header/measured.ts';
import { copyHeader, rebuiltHeader } from '../../../core/header/new-header.ts';
import { VEHICLE_MIDDLE } from '../../../core/path/banks/mirror.ts';
import { inches } from '../../../core/units/length.ts';
import { foundValue } from '../path/made-primaries.ts';

const demo = demoHeader('demo');
const TAPE: Measurement = { kind: 'outsideTape', length: inches(38.5), within: inches(0.125) };
const STRING: Measurement = { kind: 'centreline', length: inches(35.25), within: inches(0.25) };

const changed = (header: Header, edit: Edit): Header => foundValue(applyEdit(header, edit)).header;
const first = ({ primaries }: Header): Primary => {
  const [primary] = primaries;
  if (primary === undefined) throw new Error('the demo has four');
  return primary;
};
const measuredDemo = [STRING, TAPE].reduce(
  (header, reading) => changed(header, setMeasurementEdit(first(header), reading.kind, reading)),
  demo,
);

describe('a header without them', () => {
  it('is written as before there were any', () => {
    expect(writeHeader(demo)).not.toMatch(/measured|tolerances|engine/);
  });

  it('is the same file again once they are filled and emptied', () => {
    const filled = [
      setTolerancesEdit({ angleDeg: 1, clockingDeg: 2, length: inches(0.1) }),
      setEngineEdit(engineOf(demo)),
    ].reduce(changed, measuredDemo);
    expect(foundValue(readHeader(writeHeader(filled)))).toEqual(filled);
    const emptied = [setTolerancesEdit(null), setEngineEdit(null)].reduce(changed, filled);
    const bare = (['outsideTape', 'centreline'] as const).reduce(
      (header, kind) => changed(header, setMeasurementEdit(first(header), kind, null)),
      emptied,
    );
    expect(writeHeader(bare)).toBe(writeHeader(demo));
    expect(Object.keys(bare)).not.toContain('engine');
    expect(Object.keys(first(bare))).not.toContain('measured');
  });
});

describe('readings', () => {
  it('are one a method, in the order of the methods', () => {
    expect(first(measuredDemo).measured).toEqual([TAPE, STRING]);
    const again: Measurement = { ...TAPE, length: inches(38) };
    expect(
      first(changed(measuredDemo, setMeasurementEdit(first(measuredDemo), 'outsideTape', again))).measured,
    ).toEqual([again, STRING]);
  });

  it('of the same method twice are refused', () => {
    const twice: Edit = { kind: 'setMeasured', primaryId: first(demo).id, measured: [TAPE, TAPE] };
    expect(applyEdit(demo, twice)).toMatchObject({
      ok: false,
      problems: [{ kind: 'invalidValue', expected: 'each method at most once' }],
    });
  });

  it('stay with a copy of the header, and go from whatever is yet to be made', () => {
    const name = { id: 'copy', name: 'Copy' };
    expect(first(copyHeader(measuredDemo, name)).measured).toEqual([TAPE, STRING]);
    expect(rebuiltHeader(measuredDemo, name).primaries.every(({ measured }) => measured === undefined)).toBe(true);
    let made = 0;
    const newId = () => `new-${made++}`;
    const doubled = changed(measuredDemo, duplicatePrimaryEdit(measuredDemo, first(measuredDemo).id, newId) as Edit);
    expect(doubled.primaries[1]?.measured).toBeUndefined();
    const plan = { plane: VEHICLE_MIDDLE, newId };
    const mirrored = changed(measuredDemo, foundValue(mirroredCopy(measuredDemo, [first(measuredDemo).id], plan)));
    expect(mirrored.primaries.at(-1)?.measured).toBeUndefined();
  });
});

describe('an engine', () => {
  const engine = engineOf(demo);
  const refusedFor = (change: Partial<Engine>) => {
    const tried = applyEdit(demo, setEngineEdit({ ...engine, ...change }));
    return tried.ok ? 'taken' : tried.problems.map(describeProblem).join(' ');
  };

  it.each([
    [{ value: -273.15, unit: 'C' }],
    [{ value: -459.67, unit: 'F' }],
    [{ value: 0, unit: 'K' }],
    [{ value: -300, unit: 'C' }],
  ] as const)('has no gas at %j, which no sound would go through', (gasTemperature) => {
    expect(refusedFor({ gasTemperature })).toContain('a temperature above absolute zero');
  });

  it('has every cylinder from 1 up in its firing order', () => {
    expect(refusedFor({ firingOrder: [3, 7] })).toContain('every cylinder from 1 to their number');
    expect(refusedFor({ firingOrder: [1, 2, 2] })).toContain('every cylinder once');
    expect(refusedFor({ firingOrder: [3, 1, 2] })).toBe('taken');
  });
});

it('are named on the undo button', () => {
  const edits = [setMeasurementEdit(first(demo), 'outsideTape', TAPE), setTolerancesEdit(null), setEngineEdit(null)];
  expect(edits.map((edit) => describeEdit(edit, demo))).toEqual([
    'measured lengths of primary 1',
    'tolerances of the shop',
    'engine of the header',
  ]);
});
