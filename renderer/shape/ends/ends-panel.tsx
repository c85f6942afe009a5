/** Ports and inlets: where the primary in hand starts and where it must end. */

import { useState } from 'react';
import {
  addInletEdit,
  assignInletEdit,
  type Collector,
  collectorOf,
  findInlet,
  firstInletPose,
  firstPort,
  type Inlet,
  removeInletEdit,
  replaceInletEdit,
  setPortEdit,
  setSlipEdit,
  unitOf,
} from '../../../core/index.ts';
import { Button } from '../../ui/button.tsx';
import { ChoiceField } from '../../ui/fields/choice-field.tsx';
import { LengthField } from '../../ui/fields/length-field.tsx';
import { FigureText } from '../../ui/figure-text.tsx';
import { wordsFor } from '../../ui/words/problem-words.ts';
import { primaryTitle } from '../../ui/words/verdict-words.ts';
import { AxesPicture } from '../../view/axes-picture.tsx';
import type { ShapeProps } from '../shape-props.ts';
import { CollectorForm } from './collector-form.tsx';
import { PoseFields } from './pose-fields.tsx';
import { RowForm } from './row-form.tsx';

export function EndsPanel(props: ShapeProps) {
  const [form, setForm] = useState<'row' | 'collector' | null>(null);
  const toggle = (which: 'row' | 'collector') => setForm(form === which ? null : which);
  return (
    <div className="shape-columns">
      <div className="shape-stack">
        <div className="actions">
          <Button aria-expanded={form === 'row'} onPress={() => toggle('row')}>
            Row of ports
          </Button>
          <Button aria-expanded={form === 'collector'} onPress={() => toggle('collector')}>
            Collector by pattern
          </Button>
        </div>
        {form === 'row' ? <RowForm {...props} onDone={() => setForm(null)} /> : null}
        {form === 'collector' ? <CollectorForm {...props} onDone={() => setForm(null)} /> : null}
        <PortPart key={`port ${props.primary.id}`} {...props} />
        <InletPart key={`inlet ${props.primary.id}`} {...props} />
      </div>
      <AxesPicture />
    </div>
  );
}

function PortPart({ session, header, primary }: ShapeProps) {
  const unit = unitOf(header.settings.display);
  const title = primaryTitle(primary.name);
  if (primary.port === null) {
    return (
      <section className="shape-part" aria-label={`Port of ${title}`}>
        <h2 className="shape-heading">Port of {title}</h2>
        <p>No port yet. Lengths work without it; the stage, closure and moves need it.</p>
        <Button onPress={() => session.apply(setPortEdit(primary, firstPort(unit)))}>Enter port</Button>
      </section>
    );
  }
  return (
    <section className="shape-part" aria-label={`Port of ${title}`}>
      <h2 className="shape-heading">Port of {title}</h2>
      <PoseFields
        label="Port"
        pose={primary.port}
        unit={unit}
        onTake={(port) => session.apply(setPortEdit(primary, port))}
      />
      <Button look="quiet" onPress={() => session.apply(setPortEdit(primary, null))}>
        Clear port
      </Button>
    </section>
  );
}

const NONE = 'none';

function InletPart(props: ShapeProps) {
  const { session, header, primary } = props;
  const [problem, setProblem] = useState<string | null>(null);
  const title = primaryTitle(primary.name);
  const inlet = primary.inletId === null ? null : findInlet(header, primary.inletId);
  const collector = collectorOf(header, primary);
  const choices = header.collectors.flatMap(({ name, inlets }) =>
    inlets.map((candidate) => ({ id: candidate.id, name: `${name}, inlet ${candidate.name}` })),
  );
  const assign = (inletId: string | null) => {
    const done = session.apply(assignInletEdit(primary, inletId));
    setProblem(done.ok ? null : wordsFor(done.problems));
  };
  const add = () => {
    const unit = unitOf(header.settings.display);
    const edit = addInletEdit(header, { kind: 'pose', pose: firstInletPose(unit) }, () => session.newId());
    const before = new Set(header.collectors.flatMap(({ inlets }) => inlets.map(({ id }) => id)));
    const done = session.apply(edit);
    const added = done.ok
      ? done.value.collectors.flatMap(({ inlets }) => inlets).find(({ id }) => !before.has(id))
      : null;
    if (added) assign(added.id);
  };
  return (
    <section className="shape-part" aria-label={`Inlet of ${title}`}>
      <h2 className="shape-heading">Inlet of {title}</h2>
      <div className="pose-fields">
        <ChoiceField
          label="Ends in"
          choices={[{ id: NONE, name: 'No inlet' }, ...choices]}
          chosen={primary.inletId ?? NONE}
          onChoose={(id) => assign(id === NONE ? null : id)}
        />
        <div className="shape-act">
          <Button onPress={add}>Add inlet</Button>
        </div>
      </div>
      {problem === null ? null : (
        <p role="alert" className="field-problem">
          <FigureText text={problem} />
        </p>
      )}
      {inlet === null || collector === null ? null : (
        <InletFields {...props} key={inlet.id} inlet={inlet} collector={collector} />
      )}
    </section>
  );
}

interface InletProps extends ShapeProps {
  readonly inlet: Inlet;
  readonly collector: Collector;
}

function InletFields({ session, header, primary, inlet, collector }: InletProps) {
  const unit = unitOf(header.settings.display);
  const set = (place: Inlet['place']) => session.apply(replaceInletEdit(collector, { ...inlet, place }));
  const ends = header.primaries
    .filter(({ id }) => id !== primary.id)
    .map(({ id, name }) => ({ id: `endOf:${id}`, name: `Where ${primaryTitle(name)} ends` }));
  const chosen = inlet.place === null ? NONE : inlet.place.kind === 'pose' ? 'pose' : `endOf:${inlet.place.primaryId}`;
  return (
    <>
      <div className="pose-fields">
        <ChoiceField
          label="Inlet is"
          choices={[{ id: NONE, name: 'Not measured' }, { id: 'pose', name: 'At a measured place' }, ...ends]}
          chosen={chosen}
          onChoose={(id) => {
            if (id === NONE) set(null);
            else if (id === 'pose') set({ kind: 'pose', pose: firstInletPose(unit) });
            else set({ kind: 'endOf', primaryId: id.slice('endOf:'.length) });
          }}
        />
        <SlipFields session={session} inlet={inlet} collector={collector} header={header} />
      </div>
      {inlet.place?.kind === 'pose' ? (
        <PoseFields label="Inlet" pose={inlet.place.pose} unit={unit} onTake={(pose) => set({ kind: 'pose', pose })} />
      ) : null}
      <Button look="quiet" onPress={() => session.apply(removeInletEdit(header, collector, inlet.id))}>
        Remove inlet
      </Button>
    </>
  );
}

function SlipFields({ session, header, inlet, collector }: Omit<InletProps, 'primary' | 'piece'>) {
  const unit = unitOf(header.settings.display);
  return (
    <>
      {(['deeper', 'shallower'] as const).map((way) => (
        <LengthField
          key={way}
          label={`May sit ${way} by`}
          value={inlet.slip[way]}
          unit={unit}
          onTake={(length) =>
            session.apply(setSlipEdit(header, collector, { ...inlet, slip: { ...inlet.slip, [way]: length } }))
          }
        />
      ))}
    </>
  );
}
