/** Which other headers are cut together with the one in hand: what is left of one's stock may serve another. */

import type { OtherHeader } from './use-other-headers.ts';

interface Props {
  readonly others: readonly OtherHeader[];
  readonly chosen: readonly string[];
  readonly onChoose: (chosen: readonly string[]) => void;
}

export function TogetherWith({ others, chosen, onChoose }: Props) {
  if (others.length === 0) return null;
  return (
    <details className="cut-together screen-only">
      <summary>
        {chosen.length === 0 ? 'Cut other headers together with it' : `Cut together with ${chosen.length} more`}
      </summary>
      <ul>
        {others.map(({ headerId, name }) => (
          <li key={headerId}>
            <label className="choice">
              <input
                type="checkbox"
                checked={chosen.includes(headerId)}
                onChange={(event) =>
                  onChoose(event.target.checked ? [...chosen, headerId] : chosen.filter((id) => id !== headerId))
                }
              />
              {name}
            </label>
          </li>
        ))}
      </ul>
    </details>
  );
}
