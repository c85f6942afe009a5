/** The pictures of the help on shape, drawn by the parts of the program that draw them on the bench. */

import { demoHeader } from '../../core/index.ts';
import { DialFace } from '../ui/fields/clocking-dial.tsx';
import { AxesPicture } from '../view/axes-picture.tsx';
import { FlatViews } from '../view/flat/flat-views.tsx';
import { describeScene } from '../view/scene/describe-scene.ts';

const HEIGHT_PX = 220;
const TEXT_PX = 14;
const CLOCKED_DEG = 60;

const scene = describeScene(demoHeader('help-shape'), { primaryId: null, pieceId: null });

export function ShapePictures({ which }: { readonly which: 'ports' | 'clocking' | 'views' }) {
  if (which === 'ports') return <AxesPicture />;
  if (which === 'views')
    return <FlatViews scene={scene} heightPx={HEIGHT_PX} textPx={TEXT_PX} onPick={() => undefined} />;
  return (
    <figure className="help-dial" role="img" aria-label={`A bend clocked ${CLOCKED_DEG} degrees, seen from the port`}>
      <DialFace clockingDeg={CLOCKED_DEG} />
    </figure>
  );
}
