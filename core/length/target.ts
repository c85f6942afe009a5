/** The length that all primaries of a header are matched to, and which of them are still on their way to it. */

import type { Header, Primary } from '../header/header.ts';
import { assertNever } from '../result.ts';
import { mmOf } from '../units/length.ts';
import { BAND_SLACK_MM, bandAbout, sideOf } from './band.ts';
import { type Building, buildingOf } from './building.ts';

/** A primary with pieces and its length. */
export interface Begun {
  readonly primary: Primary;
  readonly lengthMm: number;
}

export interface FoundTarget {
  /** Null: there is nothing to take a target from yet. */
  readonly targetMm: number | null;
  /** The primary whose length it is, where it is a primary's. */
  readonly targetPrimaryId: string | null;
  /** It is the length of what is still being built. */
  readonly isBuilding: boolean;
  /** Those still being built, by primary id. */
  readonly buildings: ReadonlyMap<string, Building>;
}

type Buildings = FoundTarget['buildings'];

/**
 * The header's target, whether it stands, and who is still being built; see `buildingOf`.
 *
 * The longest is that of all with pieces, planned ones included; the first of equals. The mean is that of the whole ones, and
 * for it a primary is short when it is short of the longest; when none is whole it is that of all with pieces, and not firm.
 */
export function findTarget(header: Header, begun: readonly Begun[]): FoundTarget {
  const { target } = header.settings;
  switch (target.kind) {
    case 'longest':
      return targetBy(header, begun, longestOf(begun));
    case 'mean':
      return meanTarget(header, begun);
    case 'primary': {
      const isInHeader = header.primaries.some(({ id }) => id === target.primaryId);
      const found = targetBy(header, begun, begun.find(({ primary }) => primary.id === target.primaryId) ?? null);
      return { ...found, targetPrimaryId: isInHeader ? target.primaryId : null };
    }
    case 'typed': {
      const targetMm = mmOf(target.length);
      const buildings = buildingsOf(header, begun, { targetMm, setter: null });
      return { targetMm, targetPrimaryId: null, isBuilding: false, buildings };
    }
    default:
      return assertNever(target);
  }
}

function targetBy(header: Header, begun: readonly Begun[], setter: Begun | null): FoundTarget {
  if (setter === null) return { targetMm: null, targetPrimaryId: null, isBuilding: false, buildings: new Map() };
  const { id } = setter.primary;
  const buildings = buildingsOf(header, begun, { targetMm: setter.lengthMm, setter });
  return { targetMm: setter.lengthMm, targetPrimaryId: id, isBuilding: buildings.has(id), buildings };
}

function meanTarget(header: Header, begun: readonly Begun[]): FoundTarget {
  const isPlanned = ({ primary }: Begun) => primary.pieces.some(({ state }) => state === 'planned');
  const longest = longestOf(begun.filter((one) => !isPlanned(one))) ?? longestOf(begun);
  if (longest === null) return { targetMm: null, targetPrimaryId: null, isBuilding: false, buildings: new Map() };
  const buildings = buildingsOf(header, begun, { targetMm: longest.lengthMm, setter: longest });
  const whole = begun.filter(({ primary }) => !buildings.has(primary.id));
  const counted = whole.length === 0 ? begun : whole;
  const targetMm = counted.reduce((sumMm, { lengthMm }) => sumMm + lengthMm, 0) / counted.length;
  const [only, ...others] = whole;
  const targetPrimaryId = only === undefined || others.length > 0 ? null : only.primary.id;
  return { targetMm, targetPrimaryId, isBuilding: whole.length === 0, buildings };
}

/** The first of equals, equal to rounding. */
function longestOf(begun: readonly Begun[]): Begun | null {
  return begun.reduce<Begun | null>(
    (best, one) => (best === null || one.lengthMm > best.lengthMm + BAND_SLACK_MM ? one : best),
    null,
  );
}

interface Aim {
  readonly targetMm: number;
  readonly setter: Begun | null;
}

function buildingsOf(header: Header, begun: readonly Begun[], { targetMm, setter }: Aim): Buildings {
  const buildings = new Map<string, Building>();
  // What is finished is as it is; its states are bookkeeping.
  if (header.state === 'finished') return buildings;
  const band = bandAbout(targetMm, header.settings.tolerance);
  for (const one of begun) {
    const { primary, lengthMm } = one;
    const canGrow = one === setter || sideOf(lengthMm, band) === 'short';
    const building = buildingOf(header, primary, { lengthMm, targetMm, canGrow });
    if (building !== null) buildings.set(primary.id, building);
  }
  return buildings;
}
