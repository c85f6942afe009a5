/** Buttons for everything that hand and keys can do to the picture, the section and the switch to flat views. */

import { Columns3, Maximize, Rotate3d, Slice, ZoomIn, ZoomOut } from 'lucide-react';
import { useId, useState } from 'react';
import { Toolbar } from 'react-aria-components';
import { formatLength, type LengthStyle } from '../../core/index.ts';
import { Button } from '../ui/button.tsx';
import { ChoiceField } from '../ui/fields/choice-field.tsx';
import { ActionMenu } from '../ui/fields/choice-menu.tsx';
import { IconButton } from '../ui/icon-button.tsx';
import {
  KEY_ZOOM,
  STANDARD_VIEWS,
  type Standpoint,
  turnCamera,
  type ViewAngles,
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

/** What stands open under the row of buttons. */
type Drawer = 'turn' | 'section' | null;

export function ViewControls(props: Props) {
  const [drawer, setDrawer] = useState<Drawer>(null);
  const { camera, isFlat, onFlat, onStandpoint } = props;
  const toggle = (one: Drawer) => setDrawer(drawer === one ? null : one);
  const free = (next: ViewCamera) => onStandpoint({ kind: 'free', camera: next });
  return (
    <div className="view-controls screen-only">
      <Toolbar className="view-toolbar" aria-label="Stage">
        {isFlat ? null : (
          <>
            <ViewsAndZoom onStandpoint={onStandpoint} onZoom={(factor) => free(zoomCamera(camera, factor))} />
            <IconButton Icon={Maximize} name="Fit" onPress={() => onStandpoint({ kind: 'all', angles: camera })} />
            <IconButton Icon={Rotate3d} name="Turn" aria-expanded={drawer === 'turn'} onPress={() => toggle('turn')} />
            <IconButton
              Icon={Slice}
              name="Cut"
              aria-expanded={drawer === 'section'}
              onPress={() => toggle('section')}
            />
          </>
        )}
        {isFlat ? (
          <Button look="quiet" onPress={() => onFlat(false)}>
            In space
          </Button>
        ) : (
          <IconButton Icon={Columns3} name="Flat views" onPress={() => onFlat(true)} />
        )}
      </Toolbar>
      {isFlat || drawer !== 'turn' ? null : <TurnControls camera={camera} onCamera={free} />}
      {isFlat || drawer !== 'section' ? null : <SectionControls {...props} />}
    </div>
  );
}

interface ViewsProps extends Pick<Props, 'onStandpoint'> {
  readonly onZoom: (factor: number) => void;
}

/** A button each where there is room for them; one menu of them in a narrow stage. view.css shows one or the other. */
function ViewsAndZoom({ onStandpoint, onZoom }: ViewsProps) {
  const go = (angles: ViewAngles) => onStandpoint({ kind: 'all', angles });
  return (
    <>
      <span className="view-words">
        {STANDARD_VIEWS.map((view) => (
          <Button key={view.id} look="quiet" onPress={() => go(view)}>
            {view.name}
          </Button>
        ))}
        <IconButton Icon={ZoomIn} name="Zoom in" shownKey="+" onPress={() => onZoom(KEY_ZOOM)} />
        <IconButton Icon={ZoomOut} name="Zoom out" shownKey="−" onPress={() => onZoom(1 / KEY_ZOOM)} />
      </span>
      <span className="view-menu">
        <ActionMenu
          label="View and zoom"
          acts={[
            ...STANDARD_VIEWS.map((view) => ({ id: view.id, name: view.name, run: () => go(view) })),
            { id: 'zoomIn', name: 'Zoom in', run: () => onZoom(KEY_ZOOM) },
            { id: 'zoomOut', name: 'Zoom out', run: () => onZoom(1 / KEY_ZOOM) },
          ]}
        >
          View
        </ActionMenu>
      </span>
    </>
  );
}

const TURN_DEG = 15;

const TURNS = [
  { name: 'Turn left', around: TURN_DEG, over: 0 },
  { name: 'Turn right', around: -TURN_DEG, over: 0 },
  { name: 'Tilt up', around: 0, over: TURN_DEG },
  { name: 'Tilt down', around: 0, over: -TURN_DEG },
] as const;

/** For whoever cannot drag. */
function TurnControls({ camera, onCamera }: Pick<Props, 'camera'> & { readonly onCamera: (next: ViewCamera) => void }) {
  return (
    <div className="actions">
      {TURNS.map(({ name, ...by }) => (
        <Button key={name} look="quiet" onPress={() => onCamera(turnCamera(camera, by))}>
          {name}
        </Button>
      ))}
    </div>
  );
}

type SectionChoice = SectionAxis | 'none';

const CHOICES: readonly { readonly id: SectionChoice; readonly name: string }[] = [
  { id: 'none', name: 'Whole' },
  { id: 'x', name: 'Section, front to back' },
  { id: 'y', name: 'Section, side to side' },
  { id: 'z', name: 'Section, top to bottom' },
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
