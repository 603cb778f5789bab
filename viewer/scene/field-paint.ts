import {
  Color,
  DataTexture,
  DataUtils,
  HalfFloatType,
  LinearFilter,
  Mesh,
  PlaneGeometry,
  RGBAFormat,
  RGFormat,
  ShaderMaterial,
  UnsignedByteType,
  Vector2,
} from 'three';
import { cellOf, type Grid } from '../field/contours.js';
import { type FieldPalette, rampTable } from '../field/ramp.js';

/** Colours in the table of the ramp. */
const RAMP = 256;
/** mm from stripe to stripe where air ionises. */
const STRIPE = 7;
/** Below this part of air among the cells around it, a place counts as metal. */
const METAL = 0.2;
/** Drawn after the pieces that are seen through: it lies before what is left of them. */
const ORDER = 3;

const VERTEX = /* glsl */ `
varying vec2 place;
void main() {
  place = position.xz;
  gl_Position = projectionMatrix * modelViewMatrix * vec4(position, 1.0);
}`;

// Between a value in air and none in metal only the one in air counts, so that the paint reaches the surface undimmed.
const FRAGMENT = /* glsl */ `
uniform sampler2D shares;
uniform sampler2D ramp;
uniform vec2 cells;
uniform vec2 cell;
uniform float bottom;
uniform float scale;
uniform vec3 stripe;
uniform vec3 ground;
varying vec2 place;
void main() {
  vec2 found = texture2D(shares, vec2(abs(place.x), place.y - bottom) / (cell * cells)).rg;
  if (found.g < ${METAL}) discard;
  float share = scale * found.r / found.g;
  vec4 colour = texture2D(ramp, vec2((min(share, 1.0) * ${RAMP - 1}.0 + 0.5) / ${RAMP}.0, 0.5));
  if (share > 1.0) {
    float wave = fract((abs(place.x) + place.y) / ${STRIPE}.0);
    float soft = fwidth((abs(place.x) + place.y) / ${STRIPE}.0);
    float bright = smoothstep(0.5 - soft, 0.5 + soft, abs(wave - 0.5) * 2.0);
    colour = vec4(mix(ground, stripe, bright), 0.97);
  }
  gl_FragColor = colour;
}`;

/** The field as colour on a plane through the axis, both sides alike. Lies in its own x–z plane; mm. */
export class FieldPaint {
  readonly mesh: Mesh<PlaneGeometry, ShaderMaterial>;
  private readonly textures: readonly DataTexture[];

  constructor(grid: Grid, palette: FieldPalette) {
    const { radius, bottom, top, columns, rows } = grid;
    const shares = sharesTexture(grid);
    const ramp = new DataTexture(rampTable(palette, RAMP), RAMP, 1, RGBAFormat, UnsignedByteType);
    for (const texture of [shares, ramp]) {
      texture.minFilter = texture.magFilter = LinearFilter;
      texture.needsUpdate = true;
    }
    this.textures = [shares, ramp];
    const plane = new PlaneGeometry(2 * radius, top - bottom);
    plane.rotateX(Math.PI / 2).translate(0, 0, (bottom + top) / 2);
    const material = new ShaderMaterial({
      vertexShader: VERTEX,
      fragmentShader: FRAGMENT,
      uniforms: {
        shares: { value: shares },
        ramp: { value: ramp },
        cells: { value: new Vector2(columns, rows) },
        cell: { value: new Vector2(...cellOf(grid)) },
        bottom: { value: bottom },
        scale: { value: 1 },
        stripe: { value: plainColour(palette.beyond.stripe) },
        ground: { value: plainColour(palette.beyond.ground) },
      },
      transparent: true,
      depthWrite: false,
      side: 2,
    });
    this.mesh = new Mesh(plane, material);
    this.mesh.renderOrder = ORDER;
  }

  /** @param scale what the grid’s shares are multiplied by */
  setScale(scale: number): void {
    this.mesh.material.uniforms.scale!.value = scale;
  }

  dispose(): void {
    for (const texture of this.textures) texture.dispose();
    this.mesh.geometry.dispose();
    this.mesh.material.dispose();
  }
}

/** Share and, beside it, whether there is one: 1 in air, 0 in metal. */
function sharesTexture({ share, columns, rows }: Grid): DataTexture {
  const halves = new Uint16Array(2 * share.length);
  const one = DataUtils.toHalfFloat(1);
  for (const [node, value] of share.entries()) {
    if (Number.isNaN(value)) continue;
    halves[2 * node] = DataUtils.toHalfFloat(value);
    halves[2 * node + 1] = one;
  }
  return new DataTexture(halves, columns, rows, RGFormat, HalfFloatType);
}

/** The shader writes colours as the screen takes them. */
const plainColour = (colour: number) => new Color().setHex(colour, '');
