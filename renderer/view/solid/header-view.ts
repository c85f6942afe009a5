/** The header in space on a canvas: takes what is to be seen, draws it once, and waits for the next change. */

import { OrthographicCamera, Plane, Raycaster, Scene as ThreeScene, Vector2, Vector3, WebGLRenderer } from 'three';
import { distance } from '../../../core/index.ts';
import { type PictureSize, screenAxes, type ViewCamera } from '../camera/view-camera.ts';
import type { Scene } from '../scene/scene.ts';
import { cutPlane, type SectionCut } from '../scene/section-cut.ts';
import { CapObject } from './cap-object.ts';
import { FurnitureObject, TubeObject, ViewMaterials } from './scene-meshes.ts';
import { isSoftwareGraphics } from './software-graphics.ts';
import type { ViewColours } from './view-colours.ts';

export interface HeaderViewState {
  readonly scene: Scene;
  readonly camera: ViewCamera;
  readonly section: SectionCut | null;
  readonly size: PictureSize;
  readonly colours: ViewColours;
}

/** What has been drawn and what memory it holds, by the renderer's own count. */
export interface ViewCounts {
  readonly frames: number;
  readonly geometries: number;
  readonly textures: number;
}

export interface PickedPiece {
  readonly primaryId: string;
  readonly pieceId: string | null;
}

/** Distances beyond which nothing is drawn, as multiples of the header's own size. */
const DEPTH = 3;
/** How wide silhouettes are. */
const EDGE_PX = { other: 1.5, inHand: 2.5 } as const;

export class HeaderView {
  readonly #renderer: WebGLRenderer;
  readonly #canvas: HTMLCanvasElement;
  /** Told when WebGL goes away. */
  onLost: () => void;
  readonly #world = new ThreeScene();
  readonly #camera = new OrthographicCamera();
  readonly #materials = new ViewMaterials();
  readonly #tubes = new Map<string, TubeObject>();
  #furniture: FurnitureObject | null = null;
  #caps: CapObject | null = null;
  #state: HeaderViewState | null = null;
  #frames = 0;

  /** Throws where WebGL cannot be had. */
  constructor(canvas: HTMLCanvasElement, onLost: () => void) {
    this.#canvas = canvas;
    this.onLost = onLost;
    this.#renderer = new WebGLRenderer({
      canvas,
      antialias: !isSoftwareGraphics(),
      alpha: true,
      powerPreference: 'low-power',
    });
    canvas.addEventListener('webglcontextlost', this.#lost);
  }

  /** Shows the state; draws once if anything in it is another than before, and not at all if not. */
  update(state: HeaderViewState): void {
    const before = this.#state;
    this.#state = state;
    if (before !== null && isSame(before, state)) return;
    if (before?.colours !== state.colours) {
      this.#materials.show(state.colours);
      // Opaque, so that the browser need not blend the picture with the page on every frame.
      this.#renderer.setClearColor(state.colours.surface);
    }
    if (before?.scene !== state.scene) this.#showScene(state.scene, before?.scene ?? null);
    const { size } = state;
    if (before?.size.widthPx !== size.widthPx || before.size.heightPx !== size.heightPx) {
      this.#renderer.setPixelRatio(Math.min(2, devicePixelRatio));
      this.#renderer.setSize(size.widthPx, size.heightPx, false);
    }
    this.#renderer.clippingPlanes = state.section === null ? [] : [sectionPlane(state.section)];
    if (before?.section !== state.section || before.scene !== state.scene) this.#showCaps(state.section);
    const mmPerPx = state.camera.heightMm / Math.max(1, size.heightPx);
    this.#materials.edge.widthMm = EDGE_PX.other * mmPerPx;
    this.#materials.edgeInHand.widthMm = EDGE_PX.inHand * mmPerPx;
    this.#placeCamera(state);
    this.#draw();
  }

  get counts(): ViewCounts {
    const { geometries, textures } = this.#renderer.info.memory;
    return { frames: this.#frames, geometries, textures };
  }

  /** What is seen at a place of the picture, in pixels from its left and top; null for nothing. */
  pick(xPx: number, yPx: number): PickedPiece | null {
    if (this.#state === null) return null;
    const { size } = this.#state;
    const caster = new Raycaster();
    caster.setFromCamera(new Vector2((2 * xPx) / size.widthPx - 1, 1 - (2 * yPx) / size.heightPx), this.#camera);
    const tubes = [...this.#tubes.values()];
    const planes = this.#renderer.clippingPlanes;
    const hit = caster
      .intersectObjects(
        tubes.map(({ mesh }) => mesh),
        false,
      )
      .find(({ point }) => planes.every((plane) => plane.distanceToPoint(point) >= 0));
    const tube = tubes.find(({ mesh }) => mesh === hit?.object);
    if (tube === undefined || hit === undefined) return null;
    return { primaryId: tube.tube.primaryId, pieceId: tube.pieceAt(hit.faceIndex ?? 0) };
  }

  get canvas(): HTMLCanvasElement {
    return this.#canvas;
  }

  /** Gives back all that it shows; returns what the renderer still counts, which is nothing. It can be shown anew. */
  clear(): ViewCounts {
    for (const [primaryId, object] of this.#tubes) this.#remove(primaryId, object);
    this.#showCaps(null);
    this.#removeFurniture();
    this.#state = null;
    return this.counts;
  }

  /** Gives everything back, the drawing context included. */
  dispose(): void {
    this.#canvas.removeEventListener('webglcontextlost', this.#lost);
    this.clear();
    this.#materials.dispose();
    this.#renderer.dispose();
    this.#renderer.forceContextLoss();
  }

  readonly #lost = (event: Event): void => {
    event.preventDefault();
    this.onLost();
  };

  #showScene(scene: Scene, before: Scene | null): void {
    const kept = new Set(scene.tubes.map(({ primaryId }) => primaryId));
    for (const [primaryId, object] of this.#tubes) {
      if (!kept.has(primaryId)) this.#remove(primaryId, object);
    }
    for (const tube of scene.tubes) {
      const object = this.#tubes.get(tube.primaryId);
      if (object?.tube === tube) continue;
      if (object !== undefined) this.#remove(tube.primaryId, object);
      const fresh = new TubeObject(tube, this.#materials);
      this.#tubes.set(tube.primaryId, fresh);
      this.#world.add(fresh.group);
    }
    for (const object of this.#tubes.values()) object.select(scene.selection);
    const isSameFurniture = before !== null && furnitureKey(before) === furnitureKey(scene);
    if (isSameFurniture) return;
    this.#removeFurniture();
    this.#furniture = new FurnitureObject(scene, this.#materials);
    this.#world.add(this.#furniture.group);
  }

  #removeFurniture(): void {
    if (this.#furniture !== null) this.#world.remove(this.#furniture.group);
    this.#furniture?.dispose();
    this.#furniture = null;
  }

  #showCaps(section: SectionCut | null): void {
    if (this.#caps !== null) this.#world.remove(this.#caps.group);
    this.#caps?.dispose();
    this.#caps = section === null ? null : new CapObject(this.#tubes.values(), section, this.#materials);
    if (this.#caps !== null) this.#world.add(this.#caps.group);
  }

  #remove(primaryId: string, object: TubeObject): void {
    this.#world.remove(object.group);
    object.dispose();
    this.#tubes.delete(primaryId);
  }

  #placeCamera({ camera, size, scene }: HeaderViewState): void {
    const { target, heightMm } = camera;
    const { towards, up } = screenAxes(camera);
    const reachMm = scene.bounds === null ? 1000 : distance(scene.bounds.low, scene.bounds.high) + heightMm;
    const halfHeight = heightMm / 2;
    const halfWidth = (halfHeight * size.widthPx) / Math.max(1, size.heightPx);
    const view = this.#camera;
    Object.assign(view, { left: -halfWidth, right: halfWidth, top: halfHeight, bottom: -halfHeight });
    Object.assign(view, { near: 0, far: 2 * DEPTH * reachMm });
    const eye = new Vector3(towards.x, towards.y, towards.z).multiplyScalar(DEPTH * reachMm);
    view.position.set(target.x + eye.x, target.y + eye.y, target.z + eye.z);
    view.up.set(up.x, up.y, up.z);
    view.lookAt(target.x, target.y, target.z);
    view.updateProjectionMatrix();
    view.updateMatrixWorld();
  }

  #draw(): void {
    this.#frames += 1;
    this.#renderer.render(this.#world, this.#camera);
  }
}

function isSame(a: HeaderViewState, b: HeaderViewState): boolean {
  return (
    a.scene === b.scene &&
    a.camera === b.camera &&
    a.section === b.section &&
    a.colours === b.colours &&
    a.size.widthPx === b.size.widthPx &&
    a.size.heightPx === b.size.heightPx
  );
}

/** Openings and bodies are few; their numbers as text say whether any has moved. Planes are as large as the bounds. */
function furnitureKey({ mouths, bodies, bounds }: Scene): string {
  const hasPlane = bodies.some(({ kind }) => kind === 'plane');
  return JSON.stringify([mouths, bodies, hasPlane ? bounds : null]);
}

function sectionPlane(section: SectionCut): Plane {
  const { normal, constant } = cutPlane(section);
  return new Plane(new Vector3(normal.x, normal.y, normal.z), constant);
}
