/** The things of a scene as three.js objects, each with how to give its memory back. */

import {
  BoxGeometry,
  BufferAttribute,
  BufferGeometry,
  CylinderGeometry,
  DoubleSide,
  Group,
  LineBasicMaterial,
  LineSegments,
  type Material,
  Mesh,
  MeshBasicMaterial,
  Quaternion,
  Vector3,
} from 'three';
import { add, assertNever, distance, scale, subtract, unit, type Vector } from '../../../core/index.ts';
import { bodyOutline, mouthOutline, planePatch } from '../scene/body-outline.ts';
import type { Bounds, SceneBody, SceneMouth, SceneSelection, SceneTube } from '../scene/scene.ts';
import { AROUND, lineNumbers, type TubeSurface, tubeSurface } from '../scene/tube-surface.ts';
import { MetalMaterial, SilhouetteMaterial } from './metal.ts';
import type { ViewColours } from './view-colours.ts';

/** One of each for the whole view; which mesh has which says what is in hand. */
export class ViewMaterials {
  readonly tube = new MetalMaterial();
  readonly tubeInHand = new MetalMaterial();
  readonly selected = new MetalMaterial();
  readonly edge = new SilhouetteMaterial();
  readonly edgeInHand = new SilhouetteMaterial();
  readonly seam = new LineBasicMaterial();
  /** Of the faces that a section cuts. */
  readonly cut = new MeshBasicMaterial({ side: DoubleSide });
  readonly body = new MeshBasicMaterial({ transparent: true, opacity: 0.16, depthWrite: false, side: DoubleSide });
  readonly bodyEdge = new LineBasicMaterial();

  show(colours: ViewColours): void {
    this.tube.setColour(colours.tube);
    this.tubeInHand.setColour(colours.tubeInHand);
    this.selected.setColour(colours.selected);
    this.edge.setColour(colours.edge);
    this.edgeInHand.setColour(colours.edgeInHand);
    this.seam.color.setStyle(colours.seam);
    this.cut.color.setStyle(colours.cut);
    this.body.color.setStyle(colours.body);
    this.bodyEdge.color.setStyle(colours.body);
  }

  dispose(): void {
    const { tube, tubeInHand, selected, edge, edgeInHand, seam, cut, body, bodyEdge } = this;
    const all: readonly Material[] = [tube, tubeInHand, selected, edge, edgeInHand, seam, cut, body, bodyEdge];
    for (const material of all) material.dispose();
  }
}

function lines(numbers: ArrayLike<number>, material: LineBasicMaterial): LineSegments {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(numbers), 3));
  return new LineSegments(geometry, material);
}

/** A primary: one mesh whose runs of pieces have materials of their own, its silhouette, and the rings at its joints. */
export class TubeObject {
  readonly group = new Group();
  readonly tube: SceneTube;
  readonly #surface: TubeSurface;
  readonly #mesh: Mesh<BufferGeometry, Material[]>;
  readonly #edge: Mesh<BufferGeometry, Material>;
  readonly #materials: ViewMaterials;
  readonly #seams: LineSegments;

  constructor(tube: SceneTube, materials: ViewMaterials) {
    this.tube = tube;
    this.#surface = tubeSurface(tube);
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(this.#surface.positions, 3));
    geometry.setAttribute('normal', new BufferAttribute(this.#surface.normals, 3));
    geometry.setIndex(new BufferAttribute(this.#surface.indices, 1));
    // The same corners, every second one left out.
    const coarse = new BufferGeometry();
    coarse.setAttribute('position', geometry.getAttribute('position'));
    coarse.setAttribute('normal', geometry.getAttribute('normal'));
    coarse.setIndex(new BufferAttribute(this.#surface.coarseIndices, 1));
    this.#materials = materials;
    this.#mesh = new Mesh(geometry, [materials.tube, materials.tubeInHand, materials.selected]);
    this.#edge = new Mesh(coarse, materials.edge);
    this.#seams = lines(this.#surface.seams, materials.seam);
    this.group.add(this.#mesh, this.#edge, this.#seams);
  }

  /** Puts the accent on the selected piece, and more weight on the primary in hand. */
  select(selection: SceneSelection): void {
    const plain = selection.primaryId === this.tube.primaryId ? 1 : 0;
    this.#edge.material = plain === 1 ? this.#materials.edgeInHand : this.#materials.edge;
    const chosen = plain === 0 ? -1 : this.tube.pieces.findIndex(({ pieceId }) => pieceId === selection.pieceId);
    const starts = this.#surface.pieceStarts;
    const end = starts.at(-1) ?? 0;
    const [from, to] = chosen < 0 ? [end, end] : [starts[chosen] ?? end, starts[chosen + 1] ?? end];
    const { geometry } = this.#mesh;
    geometry.clearGroups();
    for (const [start, stop, material] of [
      [0, from, plain],
      [from, to, 2],
      [to, end, plain],
    ] as const) {
      if (stop > start) geometry.addGroup(start, stop - start, material);
    }
  }

  /** The piece that a triangle of the mesh belongs to. */
  pieceAt(triangle: number): string | null {
    const corner = triangle * 3;
    const index = this.#surface.pieceStarts.findIndex((start, at) => at > 0 && corner < start) - 1;
    return this.tube.pieces[index]?.pieceId ?? null;
  }

  get mesh(): Mesh {
    return this.#mesh;
  }

  get surface(): TubeSurface {
    return this.#surface;
  }

  dispose(): void {
    this.#mesh.geometry.dispose();
    this.#edge.geometry.dispose();
    this.#seams.geometry.dispose();
  }
}

/** Openings and obstacles: few, simple, and built anew when one of them changes. */
export class FurnitureObject {
  readonly group = new Group();

  constructor(
    { mouths, bodies, bounds }: { mouths: readonly SceneMouth[]; bodies: readonly SceneBody[]; bounds: Bounds | null },
    materials: ViewMaterials,
  ) {
    const mouthRuns = mouths.flatMap(mouthOutline);
    const bodyRuns = bodies.flatMap((body) => bodyOutline(body, bounds));
    if (mouthRuns.length > 0) this.group.add(lines(mouthRuns.flatMap(lineNumbers), materials.bodyEdge));
    if (bodyRuns.length > 0) this.group.add(lines(bodyRuns.flatMap(lineNumbers), materials.bodyEdge));
    for (const body of bodies) this.group.add(bodyMesh(body, bounds, materials.body));
  }

  dispose(): void {
    for (const child of this.group.children) {
      if (child instanceof Mesh || child instanceof LineSegments) child.geometry.dispose();
    }
  }
}

function bodyMesh(body: SceneBody, bounds: Bounds | null, material: Material): Mesh {
  switch (body.kind) {
    case 'box': {
      const size = subtract(body.high, body.low);
      const mesh = new Mesh(new BoxGeometry(size.x, size.y, size.z), material);
      return placed(mesh, scale(add(body.low, body.high), 0.5));
    }
    case 'cylinder': {
      const lengthMm = distance(body.from, body.to);
      const mesh = new Mesh(new CylinderGeometry(body.radiusMm, body.radiusMm, lengthMm, AROUND), material);
      if (lengthMm > 0) {
        const axis = unit(subtract(body.to, body.from));
        mesh.quaternion.copy(
          new Quaternion().setFromUnitVectors(new Vector3(0, 1, 0), new Vector3(axis.x, axis.y, axis.z)),
        );
      }
      return placed(mesh, scale(add(body.from, body.to), 0.5));
    }
    case 'plane': {
      const geometry = new BufferGeometry();
      const corners = planePatch(body.at, body.normal, bounds).flatMap(({ x, y, z }) => [x, y, z]);
      geometry.setAttribute('position', new BufferAttribute(new Float32Array(corners), 3));
      geometry.setIndex([0, 1, 2, 0, 2, 3]);
      return new Mesh(geometry, material);
    }
    default:
      return assertNever(body);
  }
}

function placed(mesh: Mesh, at: Vector): Mesh {
  mesh.position.set(at.x, at.y, at.z);
  return mesh;
}
