/** How tubes are lit: brushed metal under a lamp that stands over the eye's left shoulder, so that it reads from every side. */

import { BackSide, Color, type ColorRepresentation, DoubleSide, ShaderMaterial, Uniform } from 'three';

/**
 * The lamp goes with the eye: whichever way the header is turned, a tube is light above, dark below, and has a streak of light
 * along it. Worked out at the corners, which is cheap where graphics are drawn in software. What is seen from within is darker.
 */
const LIT_VERTEX = /* glsl */ `
  #include <clipping_planes_pars_vertex>
  varying float shade;
  varying float glint;
  const vec3 LAMP = vec3(-0.33, 0.66, 0.675);
  void main() {
    vec3 facing = normalize(normalMatrix * normal);
    float lit = 0.5 + 0.5 * dot(facing, LAMP);
    shade = 0.34 + 0.66 * lit * lit;
    glint = 0.4 * pow(max(0.0, dot(facing, LAMP)), 18.0);
    vec4 mvPosition = modelViewMatrix * vec4(position, 1.0);
    gl_Position = projectionMatrix * mvPosition;
    #include <clipping_planes_vertex>
  }
`;

const LIT_FRAGMENT = /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform vec3 colour;
  varying float shade;
  varying float glint;
  void main() {
    #include <clipping_planes_fragment>
    vec3 metal = gl_FrontFacing ? mix(colour * shade, vec3(1.0), glint) : colour * 0.35;
    gl_FragColor = vec4(metal, 1.0);
    #include <colorspace_fragment>
  }
`;

/** The far side of a slightly thicker tube: what of it shows past the tube is its silhouette, so many millimetres wide. */
const EDGE_VERTEX = /* glsl */ `
  #include <clipping_planes_pars_vertex>
  uniform float widthMm;
  void main() {
    vec4 mvPosition = modelViewMatrix * vec4(position + widthMm * normal, 1.0);
    gl_Position = projectionMatrix * mvPosition;
    #include <clipping_planes_vertex>
  }
`;

const EDGE_FRAGMENT = /* glsl */ `
  #include <clipping_planes_pars_fragment>
  uniform vec3 colour;
  void main() {
    #include <clipping_planes_fragment>
    gl_FragColor = vec4(colour, 1.0);
    #include <colorspace_fragment>
  }
`;

export class MetalMaterial extends ShaderMaterial {
  constructor() {
    super({
      uniforms: { colour: new Uniform(new Color()) },
      vertexShader: LIT_VERTEX,
      fragmentShader: LIT_FRAGMENT,
      side: DoubleSide,
      clipping: true,
      // Behind the rings at the joints, which lie on it.
      polygonOffset: true,
      polygonOffsetFactor: 1,
      polygonOffsetUnits: 1,
    });
  }

  setColour(colour: ColorRepresentation): void {
    this.uniforms['colour']?.value.set(colour);
  }
}

export class SilhouetteMaterial extends ShaderMaterial {
  constructor() {
    super({
      uniforms: { colour: new Uniform(new Color()), widthMm: new Uniform(0) },
      vertexShader: EDGE_VERTEX,
      fragmentShader: EDGE_FRAGMENT,
      side: BackSide,
      clipping: true,
    });
  }

  setColour(colour: ColorRepresentation): void {
    this.uniforms['colour']?.value.set(colour);
  }

  set widthMm(widthMm: number) {
    const width = this.uniforms['widthMm'];
    if (width !== undefined) width.value = widthMm;
  }
}
