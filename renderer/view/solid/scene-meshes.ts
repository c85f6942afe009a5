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
import { add, assertNever, distance, dot, scale, subtract, unit, type Vector } from '../../../core/index.ts';
import { bodyOutline, mouthOutline, planePatch } from '../scene/body-outline.ts';
import type { Bounds, SceneBody, SceneMouth, SceneSelection, SceneTube } from '../scene/scene.ts';
import { AROUND, lineNumbers, type TubeSurface, tubeSurface } from '../scene/tube-surface.ts';
import type { ViewColours } from './view-colours.ts';

/**
 * The light is fixed in space and worked out once for every corner, so that a picture costs little even where graphics are
 * drawn in software; what is seen from within a tube is darker.
 */
function tubeMaterial(): MeshBasicMaterial {
  const material = new MeshBasicMaterial({
    vertexColors: true,
    side: DoubleSide,
    polygonOffset: true,
    polygonOffsetFactor: 1,
    polygonOffsetUnits: 1,
  });
  material.onBeforeCompile = (shader) => {
    shader.fragmentShader = shader.fragmentShader.replace(
      '#include <color_fragment>',
      '#include <color_fragment>\n  if (!gl_FrontFacing) diffuseColor.rgb *= 0.55;',
    );
  };
  return material;
}

/** From above, in front and outboard: the side that the usual view is from. */
const LIGHT = unit({ x: 0.35, y: 0.45, z: 0.8 });
const DARKEST = 0.16;

/** How light each corner is, 0 to 1, as three equal parts of a colour: half Lambert, which leaves no side black. */
export function shadesOf(normals: Float32Array): Float32Array {
  const shades = new Float32Array(normals.length);
  for (let corner = 0; corner < normals.length; corner += 3) {
    const facing = dot(LIGHT, { x: normals[corner] ?? 0, y: normals[corner + 1] ?? 0, z: normals[corner + 2] ?? 0 });
    shades.fill(DARKEST + ((1 - DARKEST) * (facing + 1)) / 2, corner, corner + 3);
  }
  return shades;
}

/** One of each for the whole view; which mesh has which says what is in hand. */
export class ViewMaterials {
  readonly tube = tubeMaterial();
  readonly tubeInHand = tubeMaterial();
  readonly selected = tubeMaterial();
  readonly seam = new LineBasicMaterial();
  readonly body = new MeshBasicMaterial({ transparent: true, opacity: 0.16, depthWrite: false, side: DoubleSide });
  readonly bodyEdge = new LineBasicMaterial();

  show(colours: ViewColours): void {
    this.tube.color.setStyle(colours.tube);
    this.tubeInHand.color.setStyle(colours.tubeInHand);
    this.selected.color.setStyle(colours.selected);
    this.seam.color.setStyle(colours.seam);
    this.body.color.setStyle(colours.body);
    this.bodyEdge.color.setStyle(colours.body);
  }

  dispose(): void {
    const all: readonly Material[] = [this.tube, this.tubeInHand, this.selected, this.seam, this.body, this.bodyEdge];
    for (const material of all) material.dispose();
  }
}

function lines(numbers: ArrayLike<number>, material: LineBasicMaterial): LineSegments {
  const geometry = new BufferGeometry();
  geometry.setAttribute('position', new BufferAttribute(new Float32Array(numbers), 3));
  return new LineSegments(geometry, material);
}

/** A primary: one mesh whose runs of pieces have materials of their own, and the rings at its joints. */
export class TubeObject {
  readonly group = new Group();
  readonly tube: SceneTube;
  readonly #surface: TubeSurface;
  readonly #mesh: Mesh<BufferGeometry, Material[]>;
  readonly #seams: LineSegments;

  constructor(tube: SceneTube, materials: ViewMaterials) {
    this.tube = tube;
    this.#surface = tubeSurface(tube);
    const geometry = new BufferGeometry();
    geometry.setAttribute('position', new BufferAttribute(this.#surface.positions, 3));
    geometry.setAttribute('color', new BufferAttribute(shadesOf(this.#surface.normals), 3));
    geometry.setIndex(new BufferAttribute(this.#surface.indices, 1));
    this.#mesh = new Mesh(geometry, [materials.tube, materials.tubeInHand, materials.selected]);
    this.#seams = lines(this.#surface.seams, materials.seam);
    this.group.add(this.#mesh, this.#seams);
  }

  /** Puts the accent on the selected piece, and more weight on the primary in hand. */
  select(selection: SceneSelection): void {
    const plain = selection.primaryId === this.tube.primaryId ? 1 : 0;
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

  dispose(): void {
    this.#mesh.geometry.dispose();
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
