/** The engine: its firing order, speed and gas, each to be typed over. */

import {
  COMMON_ORDERS,
  type Engine,
  engineOf,
  formatFiringIntervals,
  formatFiringOrder,
  type Header,
  type Problem,
  parseFiringIntervals,
  parseFiringOrder,
  parsePlainNumber,
  parseTemperature,
  type Result,
  setEngineEdit,
  soundOf,
  withFiring,
} from '../../core/index.ts';
import type { HeaderSession } from '../session/header-session.ts';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { TakenField } from '../ui/fields/length-field.tsx';
import { withDecimalPoints } from '../ui/fields/typed-numbers.ts';
import { firesWords, temperatureUnit } from './gas-words.ts';

interface Props {
  readonly session: HeaderSession;
  readonly header: Header;
}

const OTHER = 'other';
const FEET_PER_METRE = 1 / 0.3048;

export function EngineFields({ session, header }: Props) {
  const engine = engineOf(header);
  const take = (changed: Engine): Result<unknown, Problem> => session.apply(setEngineEdit(changed));
  const set = (change: Partial<Engine>) => take({ ...engine, ...change });
  const soundMs = soundOf(engine);
  if (header.state !== 'open') return <EngineWords engine={engine} />;
  return (
    <>
      <div className="gas-fields">
        <FiringFields engine={engine} take={take} />
        <NumberField label="Engine speed (rpm)" value={engine.rpm} field="rpm" onTake={(rpm) => set({ rpm })} />
        <TakenField
          label={`Gas temperature (${temperatureUnit(engine.gasTemperature)})`}
          stored={String(engine.gasTemperature.value)}
          take={(text) => {
            const read = parseTemperature(withDecimalPoints(text), engine.gasTemperature.unit);
            return read.ok ? set({ gasTemperature: read.value }) : read;
          }}
        />
        <NumberField label="Gamma of the gas" value={engine.gamma} field="gamma" onTake={(gamma) => set({ gamma })} />
        <NumberField
          label="Molar mass (g/mol)"
          value={engine.molarMass}
          field="molarMass"
          onTake={(molarMass) => set({ molarMass })}
        />
      </div>
      <p>
        {firesWords(engine)} Sound in the gas: {soundWords(soundMs)}, an estimate.
      </p>
    </>
  );
}

interface FiringProps {
  readonly engine: Engine;
  readonly take: (changed: Engine) => Result<unknown, Problem>;
}

/** Which cylinder fires after which, and how far apart: by name of the engine, or typed. */
function FiringFields({ engine, take }: FiringProps) {
  const order = formatFiringOrder(engine.firingOrder);
  const intervals = formatFiringIntervals(engine);
  const known = COMMON_ORDERS.find(
    (common) => formatFiringOrder(common.order) === order && commonIntervals(common) === intervals,
  );
  return (
    <>
      <ChoiceField<string>
        label="Engine"
        choices={[
          ...COMMON_ORDERS.map((common) => ({ id: common.name, name: commonWords(common) })),
          { id: OTHER, name: 'Another, typed below' },
        ]}
        chosen={known?.name ?? OTHER}
        onChoose={(id) => {
          const common = COMMON_ORDERS.find(({ name }) => name === id);
          if (common !== undefined) take(withFiring(engine, common.order, common.intervalsDeg ?? null));
        }}
      />
      <TakenField
        label="Firing order"
        stored={order}
        take={(text) => {
          const read = parseFiringOrder(text);
          if (!read.ok) return read;
          const kept = engine.firingIntervalsDeg ?? null;
          return take(withFiring(engine, read.value, kept?.length === read.value.length ? kept : null));
        }}
      />
      <TakenField
        label="Firing intervals (°), or even"
        stored={intervals}
        take={(text) => {
          const read = parseFiringIntervals(text, engine.firingOrder);
          return read.ok ? take(withFiring(engine, engine.firingOrder, read.value)) : read;
        }}
      />
    </>
  );
}

function commonIntervals({ order, intervalsDeg }: (typeof COMMON_ORDERS)[number]): string {
  return formatFiringIntervals(
    intervalsDeg === undefined ? { firingOrder: order } : { firingOrder: order, firingIntervalsDeg: intervalsDeg },
  );
}

function commonWords(common: (typeof COMMON_ORDERS)[number]): string {
  const intervals = common.intervalsDeg === undefined ? '' : `, ${commonIntervals(common)}°`;
  return `${common.name}: ${formatFiringOrder(common.order)}${intervals}`;
}

function soundWords(soundMs: number): string {
  return `${Math.round(soundMs)} m/s (${Math.round(soundMs * FEET_PER_METRE)} ft/s)`;
}

function EngineWords({ engine }: { readonly engine: Engine }) {
  const { firingOrder, rpm, gasTemperature, gamma, molarMass } = engine;
  return (
    <p>
      {firesWords(engine)} {formatFiringOrder(firingOrder)} at {rpm} rpm; gas at {gasTemperature.value}{' '}
      {temperatureUnit(gasTemperature)}, gamma {gamma}, {molarMass} g/mol: sound at {soundWords(soundOf(engine))}, an
      estimate.
    </p>
  );
}

interface NumberProps {
  readonly label: string;
  readonly value: number;
  readonly field: string;
  readonly onTake: (value: number) => Result<unknown, Problem>;
}

export function NumberField({ label, value, field, onTake }: NumberProps) {
  return (
    <TakenField
      label={label}
      stored={String(value)}
      take={(text) => {
        const read = parsePlainNumber(withDecimalPoints(text), field);
        return read.ok ? onTake(read.value) : read;
      }}
    />
  );
}
