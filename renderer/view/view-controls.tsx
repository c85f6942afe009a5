/** Buttons for everything that hand and keys can do to the picture, the section and the switch to flat views. */

import { useId, useState } from 'react';
import { formatLength, type LengthStyle } from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import {
  KEY_ZOOM,
  STANDARD_VIEWS,
  type Standpoint,
  turnCamera,
  type ViewCamera,
  zoomCamera,
} from './camera/view-camera.ts';
import type { Bounds } from './scene/scene.ts';
import { middleCut, type SectionAxis, type SectionCut, withinBounds } from './scene/section-cut.ts';

interface Props {
  readonly camera: ViewCamera;
  readonly bounds: Bounds | null;
  readonly style: LengthStyle;
  readonly section: SectionCut | null;
  readonly isFlat: boolean;
  readonly onStandpoint: (standpoint: Standpoint) => void;
  readonly onSection: (section: SectionCut | null) => void;
  readonly onFlat: (isFlat: boolean) => void;
}

export function ViewControls(props: Props) {
  const [isOpen, setIsOpen] = useState(false);
  const { isFlat, onFlat, onStandpoint } = props;
  return (
    <div className="view-controls screen-only">
      <div className="actions">
        {isFlat
          ? null
          : STANDARD_VIEWS.map((view) => (
              <Button key={view.id} look="quiet" onPress={() => onStandpoint({ kind: 'all', angles: view })}>
                {view.name}
              </Button>
            ))}
        {isFlat ? null : (
          <Button look="quiet" aria-expanded={isOpen} onPress={() => setIsOpen(!isOpen)}>
            Turn and cut
          </Button>
        )}
        <Button look="quiet" onPress={() => onFlat(!isFlat)}>
          {isFlat ? 'In space' : 'Flat views'}
        </Button>
      </div>
      {isOpen && !isFlat ? <MoreControls {...props} /> : null}
    </div>
  );
}

const TURN_DEG = 15;

function MoreControls({ camera, bounds, style, section, onStandpoint, onSection }: Props) {
  const free = (next: ViewCamera) => onStandpoint({ kind: 'free', camera: next });
  const turn = (around: number, over: number) => free(turnCamera(camera, { around, over }));
  return (
    <>
      <div className="actions">
        <Button look="quiet" onPress={() => turn(TURN_DEG, 0)}>
          Turn left
        </Button>
        <Button look="quiet" onPress={() => turn(-TURN_DEG, 0)}>
          Turn right
        </Button>
        <Button look="quiet" onPress={() => turn(0, TURN_DEG)}>
          Over
        </Button>
        <Button look="quiet" onPress={() => turn(0, -TURN_DEG)}>
          Under
        </Button>
        <Button look="quiet" onPress={() => free(zoomCamera(camera, KEY_ZOOM))}>
          Nearer
        </Button>
        <Button look="quiet" onPress={() => free(zoomCamera(camera, 1 / KEY_ZOOM))}>
          Farther
        </Button>
        <Button look="quiet" onPress={() => onStandpoint({ kind: 'all', angles: camera })}>
          All in picture
        </Button>
      </div>
      <SectionControls bounds={bounds} style={style} section={section} onSection={onSection} />
    </>
  );
}

type SectionChoice = SectionAxis | 'none';

const CHOICES: readonly { readonly id: SectionChoice; readonly name: string }[] = [
  { id: 'none', name: 'Whole' },
  { id: 'x', name: 'Cut across forward' },
  { id: 'y', name: 'Cut across outboard' },
  { id: 'z', name: 'Cut across up' },
];

const SLIDER_STEPS = 200;

function SectionControls({
  bounds,
  style,
  section,
  onSection,
}: Pick<Props, 'bounds' | 'style' | 'section' | 'onSection'>) {
  const id = useId();
  const cut = section === null ? null : withinBounds(section, bounds);
  return (
    <div className="view-section">
      <ChoiceField<SectionChoice>
        label="Section"
        choices={CHOICES}
        chosen={section?.axis ?? 'none'}
        onChoose={(choice) => onSection(choice === 'none' ? null : middleCut(choice, bounds))}
      />
      {cut === null || bounds === null ? null : (
        <>
          <div className="field">
            <label className="field-label" htmlFor={id}>
              Cut at {formatLength(cut.atMm, style)}
            </label>
            <input
              id={id}
              className="view-slider"
              type="range"
              min={bounds.low[cut.axis]}
              max={bounds.high[cut.axis]}
              step={(bounds.high[cut.axis] - bounds.low[cut.axis]) / SLIDER_STEPS}
              value={cut.atMm}
              onChange={(event) => onSection({ ...cut, atMm: Number(event.target.value) })}
            />
          </div>
          <Button onPress={() => onSection({ ...cut, keeps: cut.keeps === 'below' ? 'above' : 'below' })}>
            Other side
          </Button>
        </>
      )}
    </div>
  );
}
