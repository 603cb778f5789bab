import {
  AmbientLight,
  type Box3,
  Color,
  DirectionalLight,
  HemisphereLight,
  type Material,
  Mesh,
  PerspectiveCamera,
  Plane,
  PlaneGeometry,
  Raycaster,
  Scene,
  ShadowMaterial,
  Vector2,
  Vector3,
  VSMShadowMap,
  WebGLRenderer,
} from 'three';
import { OrbitControls } from 'three/examples/jsm/controls/OrbitControls.js';
import { CSS2DRenderer } from 'three/examples/jsm/renderers/CSS2DRenderer.js';
import { FIRST_DIRECTION, type Margins, middleOf, shiftView, type View, viewOf } from './framing.js';
import type { Palette } from './look.js';

/** Degrees; narrow, so that a tall machine looks upright. */
const FIELD_OF_VIEW = 24;
/** ms that the camera takes to fly somewhere. */
const FLIGHT = 420;
/** Radians that one press of an arrow key turns the view by, and the share by which one key press comes nearer. */
const TURN = Math.PI / 24;
const NEARER = 0.85;

/** Canvas, camera, light and ground. Draws only when something changed. */
export class Stage {
  readonly scene = new Scene();
  readonly camera = new PerspectiveCamera(FIELD_OF_VIEW, 1, 1, 10_000);
  /** Lies over the picture: for what is arranged anew with each frame. */
  readonly overlay = document.createElement('div');
  private readonly renderer: WebGLRenderer;
  private readonly labels: CSS2DRenderer;
  private readonly controls: OrbitControls;
  private readonly sun = new DirectionalLight(0xffffff, 2.1);
  private readonly ground: Mesh<PlaneGeometry, ShadowMaterial>;
  private readonly watch: ResizeObserver;
  private waiting = 0;
  private flight = 0;
  private bottom = 0;
  /** Frames drawn since the page was opened. */
  frames = 0;
  /** Told after each frame. */
  onDrawn: (width: number, height: number) => void = () => {};

  /**
   * @param onLost told when the graphics card takes its context away
   * @throws Error where there is no WebGL
   */
  constructor(
    private readonly host: HTMLElement,
    palette: Palette,
    private readonly margins: () => Margins,
    private readonly calm: () => boolean,
    onLost: () => void,
  ) {
    this.renderer = new WebGLRenderer({ antialias: true, alpha: false });
    this.renderer.setPixelRatio(Math.min(window.devicePixelRatio, 2));
    this.renderer.localClippingEnabled = true;
    this.renderer.shadowMap.enabled = true;
    this.renderer.shadowMap.type = VSMShadowMap;
    this.renderer.shadowMap.autoUpdate = false;
    this.labels = new CSS2DRenderer();
    this.labels.domElement.className = 'labels';
    this.overlay.className = 'overlay';
    host.append(this.renderer.domElement, this.labels.domElement, this.overlay);
    this.renderer.domElement.addEventListener('webglcontextlost', (event) => {
      event.preventDefault();
      onLost();
    });

    this.camera.up.set(0, 0, 1);
    this.controls = new OrbitControls(this.camera, this.renderer.domElement);
    this.controls.enableDamping = false;
    this.controls.zoomToCursor = true;
    this.controls.addEventListener('change', () => this.redraw());
    this.controls.addEventListener('start', () => cancelAnimationFrame(this.flight));

    this.sun.castShadow = true;
    this.sun.shadow.mapSize.set(1024, 1024);
    this.sun.shadow.radius = 7;
    this.sun.shadow.blurSamples = 12;
    this.ground = new Mesh(new PlaneGeometry(1, 1), new ShadowMaterial({ opacity: 0.2 }));
    this.ground.receiveShadow = true;
    const fill = new DirectionalLight(0xffffff, 0.7);
    fill.position.set(-1, 0.4, 0.3);
    const back = new DirectionalLight(0xffffff, 0.5);
    back.position.set(0.3, 1, 0.6);
    this.scene.add(
      this.sun,
      this.sun.target,
      fill,
      back,
      new HemisphereLight(0xffffff, 0xb9b2a4, 0.9),
      new AmbientLight(0xffffff, 0.25),
      this.ground,
    );
    this.repaint(palette);
    this.watch = new ResizeObserver(() => this.resize());
    this.watch.observe(host);
    this.resize();
  }

  get canvas(): HTMLCanvasElement {
    return this.renderer.domElement;
  }

  /** Draws soon, once, however often it is asked for. */
  redraw(shadows = false): void {
    if (shadows) this.renderer.shadowMap.needsUpdate = true;
    this.waiting ||= requestAnimationFrame(() => {
      this.waiting = 0;
      this.draw();
    });
  }

  /** Whether there is something still to be drawn. */
  get pending(): boolean {
    return this.waiting !== 0;
  }

  repaint(palette: Palette): void {
    this.scene.background = new Color(palette.paper);
    this.ground.material.color.set(palette.shadow);
    this.redraw(true);
  }

  /** Puts ground and light where the machine is. mm */
  standOn(bottom: number, machine: Box3): void {
    this.bottom = bottom;
    const size = machine.getSize(new Vector3()).length();
    const centre = machine.getCenter(new Vector3());
    this.ground.position.set(0, 0, bottom);
    this.ground.scale.set(size * 1.4, size * 1.4, 1);
    this.sun.target.position.copy(centre);
    this.sun.position.copy(centre).add(new Vector3(0.35, -0.5, 1).multiplyScalar(size));
    const { camera } = this.sun.shadow;
    camera.left = camera.bottom = -size * 0.75;
    camera.right = camera.top = size * 0.75;
    camera.near = size * 0.1;
    camera.far = size * 2.4;
    camera.updateProjectionMatrix();
    this.redraw(true);
  }

  /** The direction from what is looked at towards the eye. */
  get direction(): Vector3 {
    return this.camera.position.clone().sub(this.controls.target).normalize();
  }

  /** Brings a box into the picture; at once, or in a short flight where motion is welcome. */
  frame(box: Box3, direction: Vector3 = this.direction, atOnce = false): void {
    if (box.isEmpty()) return;
    const { clientWidth, clientHeight } = this.host;
    shiftView(this.camera, this.margins(), clientWidth, clientHeight);
    this.fly(viewOf(box, direction, this.camera, this.margins()), atOnce);
  }
  frameFirst(box: Box3): void {
    this.frame(box, FIRST_DIRECTION.clone(), true);
  }

  /** Puts the eye somewhere else, at once, looking at the same. */
  lookFrom(position: Vector3): void {
    this.camera.position.copy(position);
    this.controls.update();
    this.redraw();
  }

  /** Turns the view around what is looked at. Steps of one key press. */
  turn(right: number, up: number): void {
    const offset = this.camera.position.clone().sub(this.controls.target);
    const distance = offset.length();
    const azimuth = Math.atan2(offset.y, offset.x) + right * TURN;
    const limit = Math.PI / 2 - 0.01;
    const elevation = Math.min(limit, Math.max(-limit, Math.asin(offset.z / distance) + up * TURN));
    offset.set(
      Math.cos(elevation) * Math.cos(azimuth),
      Math.cos(elevation) * Math.sin(azimuth),
      Math.sin(elevation),
    );
    this.camera.position.copy(this.controls.target).addScaledVector(offset, distance);
    this.controls.update();
    this.redraw();
  }
  /** Comes nearer (1) or goes farther (-1). */
  approach(steps: number): void {
    const offset = this.camera.position.clone().sub(this.controls.target);
    offset.multiplyScalar(NEARER ** steps);
    this.camera.position.copy(this.controls.target).add(offset);
    this.controls.update();
    this.redraw();
  }
  /** Moves what is looked at up or down by shares of the picture. */
  lift(share: number): void {
    const distance = this.camera.position.distanceTo(this.controls.target);
    const step = share * distance * 2 * Math.tan(((this.camera.fov / 2) * Math.PI) / 180);
    this.camera.position.z += step;
    this.controls.target.z += step;
    this.controls.update();
    this.redraw();
  }

  /** Where in the picture the target lies, from -1 to 1 to the right and up. */
  get middle(): Vector2 {
    return middleOf(this.margins());
  }

  /** Camera and target, to keep a view. */
  get view(): View {
    return { position: this.camera.position.clone(), target: this.controls.target.clone() };
  }

  /** @param point of the picture, from -1 to 1 to the right and up */
  rayThrough(point: Vector2): Raycaster {
    const caster = new Raycaster();
    caster.setFromCamera(point, this.camera);
    return caster;
  }

  /** Heights (mm) on the axis at the lower and upper edge of the picture. */
  heightsInPicture(): readonly [number, number] {
    const facing = new Plane().setFromNormalAndCoplanarPoint(
      new Vector3(this.direction.x, this.direction.y, 0).normalize(),
      new Vector3(),
    );
    const at = (y: number) => {
      const hit = this.rayThrough(new Vector2(this.middle.x, y)).ray.intersectPlane(facing, new Vector3());
      return hit?.z ?? (y < 0 ? -Infinity : Infinity);
    };
    return [at(-1), at(1)];
  }

  /** The picture as PNG, twice as fine as on the screen. */
  async picture(): Promise<Blob> {
    const ratio = this.renderer.getPixelRatio();
    try {
      this.renderer.setPixelRatio(2);
      this.draw();
      return await new Promise<Blob>((resolve, reject) =>
        this.canvas.toBlob(
          (blob) => (blob ? resolve(blob) : reject(new Error('no picture came'))),
          'image/png',
        ),
      );
    } finally {
      this.renderer.setPixelRatio(ratio);
      this.redraw();
    }
  }

  /** Geometries and textures on the graphics card: what must not grow. */
  get memory(): { readonly geometries: number; readonly textures: number } {
    return { ...this.renderer.info.memory };
  }

  dispose(): void {
    cancelAnimationFrame(this.waiting);
    cancelAnimationFrame(this.flight);
    this.watch.disconnect();
    this.controls.dispose();
    this.ground.geometry.dispose();
    (this.ground.material as Material).dispose();
    this.renderer.dispose();
    this.host.replaceChildren();
  }

  private draw(): void {
    const distance = this.camera.position.distanceTo(this.controls.target);
    this.camera.near = Math.max(0.5, distance / 200);
    this.camera.far = distance * 30;
    this.camera.updateProjectionMatrix();
    // From below the ground would hide everything.
    this.ground.visible = this.camera.position.z > this.bottom;
    this.renderer.render(this.scene, this.camera);
    this.labels.render(this.scene, this.camera);
    this.frames++;
    this.onDrawn(this.host.clientWidth, this.host.clientHeight);
  }

  private resize(): void {
    const { clientWidth, clientHeight } = this.host;
    if (clientWidth === 0 || clientHeight === 0) return;
    this.camera.aspect = clientWidth / clientHeight;
    shiftView(this.camera, this.margins(), clientWidth, clientHeight);
    this.renderer.setSize(clientWidth, clientHeight);
    this.labels.setSize(clientWidth, clientHeight);
    this.camera.updateProjectionMatrix();
    // Drawn at once: a canvas that was given a new size is empty.
    this.draw();
  }

  private fly(to: View, atOnce: boolean): void {
    cancelAnimationFrame(this.flight);
    const from = this.view;
    const set = ({ position, target }: View) => {
      this.camera.position.copy(position);
      this.controls.target.copy(target);
      this.controls.update();
      this.redraw();
    };
    if (atOnce || this.calm()) {
      set(to);
      return;
    }
    const began = performance.now();
    const step = (now: number) => {
      const share = Math.min(1, Math.max(0, (now - began) / FLIGHT));
      const eased = share * share * (3 - 2 * share);
      set({
        position: from.position.clone().lerp(to.position, eased),
        target: from.target.clone().lerp(to.target, eased),
      });
      if (share < 1) this.flight = requestAnimationFrame(step);
    };
    this.flight = requestAnimationFrame(step);
  }
}
