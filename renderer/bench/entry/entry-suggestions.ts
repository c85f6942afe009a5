/** What the entry line offers while it is typed in: the CLRs, angles and legs that lie on the shelf. */

import { formatTypedAngle, type LengthUnit, type ShelfOffers, typedText } from '../../../core/index.ts';

export interface Suggestion {
  /** The whole line as it becomes. */
  readonly text: string;
  /** What is offered, such as "r3". */
  readonly label: string;
  /** Where it lies: "on the shelf", "leg on the shelf". */
  readonly where: string;
}

/** The last `r` of a bend that is being typed, with what follows it. */
const CLR_BEGUN = /^(.*\b[bp][^;]*?)r([^;a-z]*)$/i;
/** The angle of a bend that is begun, with nothing after it. */
const ANGLE_BEGUN = /^((?:.*;\s*)?b)([0-9.]*)$/i;
/** The length of a straight that is begun: figures only, at the start of a piece. */
const LENGTH_BEGUN = /^((?:.*;\s*)?s?)([0-9][0-9 ./]*)$/i;
/** More would hide what is typed. */
const MOST = 6;

/** Those of the shelf, in their order, that begin as what the line ends in; none where the line already ends in one of them. */
export function suggestStock(text: string, offers: ShelfOffers, unit: LengthUnit): readonly Suggestion[] {
  const clr = CLR_BEGUN.exec(text);
  if (clr !== null) {
    const [, head = '', begun = ''] = clr;
    return beginning(`${head}r`, begun.trim(), { values: offers.clrs.map((one) => typedText(one, unit)), sign: 'r' });
  }
  const angle = ANGLE_BEGUN.exec(text);
  if (angle !== null) {
    const [, head = '', begun = ''] = angle;
    return beginning(head, begun, { values: offers.anglesDeg.map(formatTypedAngle), sign: 'b' });
  }
  const [, head, begun = ''] = LENGTH_BEGUN.exec(text) ?? [];
  if (head === undefined) return [];
  const legs = { values: offers.legs.map((leg) => typedText(leg, unit)), sign: '', where: 'leg on the shelf' };
  return beginning(head, begun.trim(), legs);
}

function beginning(
  head: string,
  begun: string,
  {
    values,
    sign,
    where = 'on the shelf',
  }: { readonly values: readonly string[]; readonly sign: string; readonly where?: string },
): readonly Suggestion[] {
  const offered = values.filter((value) => value.startsWith(begun));
  if (offered.includes(begun)) return [];
  return offered.slice(0, MOST).map((value) => ({ text: `${head}${value}`, label: `${sign}${value}`, where }));
}
