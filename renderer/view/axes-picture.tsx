/** A picture of the header frame: an engine head with a port, and which way is forward, outboard and up. */

import { addScaled } from '../../core/index.ts';
import { svgPath, tenth } from './annotations/annotations.ts';
import { projector, type ViewCamera } from './camera/view-camera.ts';
import { bodyOutline, mouthOutline } from './scene/body-outline.ts';
import type { SceneBody, SceneMouth } from './scene/scene.ts';
import './axes-picture.css';

const SIZE = { widthPx: 260, heightPx: 190 } as const;
const CAMERA: ViewCamera = { target: { x: 10, y: 15, z: 5 }, azimuthDeg: 52, elevationDeg: 24, heightMm: 190 };
const HEAD: SceneBody = {
  kind: 'box',
  id: 'head',
  name: 'head',
  low: { x: -80, y: -45, z: -30 },
  high: { x: 40, y: 0, z: 30 },
};
const ORIGIN = { x: 0, y: 0, z: 0 };
const PORT: SceneMouth = {
  kind: 'port',
  id: 'port',
  name: 'port',
  odMm: 26,
  frame: { point: ORIGIN, tangent: { x: 0, y: 1, z: 0 }, normal: { x: 0, y: 0, z: 1 } },
};
const ARROWS = [
  { name: 'forward', axis: { x: 1, y: 0, z: 0 }, lengthMm: 92 },
  { name: 'outboard', axis: { x: 0, y: 1, z: 0 }, lengthMm: 92 },
  { name: 'up', axis: { x: 0, y: 0, z: 1 }, lengthMm: 72 },
] as const;

const project = projector(CAMERA, SIZE);

export function AxesPicture() {
  return (
    <figure className="axes-picture">
      <svg viewBox={`0 0 ${SIZE.widthPx} ${SIZE.heightPx}`} role="img" aria-label="Forward, outboard and up at a port">
        <path
          d={bodyOutline(HEAD, null)
            .map((run) => svgPath(run, project))
            .join('')}
          className="axes-head"
        />
        <path
          d={mouthOutline(PORT)
            .slice(0, 2)
            .map((run) => svgPath(run, project))
            .join('')}
          className="axes-port"
        />
        {ARROWS.map(({ name, axis, lengthMm }) => {
          const tip = project(addScaled(ORIGIN, axis, lengthMm));
          const text = project(addScaled(ORIGIN, axis, lengthMm + 24));
          return (
            <g key={name} className="axes-arrow">
              <path d={svgPath([ORIGIN, addScaled(ORIGIN, axis, lengthMm)], project)} />
              <circle cx={tenth(tip.x)} cy={tenth(tip.y)} r={4} />
              <text x={tenth(text.x)} y={tenth(text.y)} textAnchor="middle" dominantBaseline="central">
                {name}
              </text>
            </g>
          );
        })}
      </svg>
      <figcaption>
        Forward is to the front of the vehicle, outboard to its left-hand side, up is up. Ports on the right-hand side
        point inboard. Measure all places from one point, the first port being the handiest.
      </figcaption>
    </figure>
  );
}
