import { Box3, type PerspectiveCamera, Vector2, Vector3 } from 'three';

/** Share of the picture that stays free on each side, for rail and labels. */
export interface Margins {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** Where a camera stands and what it looks at. */
export interface View {
  readonly position: Vector3;
  readonly target: Vector3;
}

/** Direction from the machine towards the eye in the first view: from the front right, a little from above, where neither the
 * belt nor what slides out along its axes is seen end on. */
export const FIRST_DIRECTION = new Vector3(1, -0.75, 0.34).normalize();

/**
 * The view from a direction in which a box just fills what the margins leave of the picture.
 * @param direction unit vector from the box towards the eye
 */
export function viewOf(box: Box3, direction: Vector3, camera: PerspectiveCamera, margins: Margins): View {
  const centre = box.getCenter(new Vector3());
  const forward = direction.clone().negate();
  const right = new Vector3().crossVectors(forward, camera.up);
  // Looking straight down there is no right by itself.
  if (right.lengthSq() < 1e-9) right.set(1, 0, 0);
  right.normalize();
  const up = new Vector3().crossVectors(right, forward).normalize();
  const tall = Math.tan(((camera.fov / 2) * Math.PI) / 180);
  const wide = tall * camera.aspect;
  const [freeWide, freeTall] = [
    wide * (1 - margins.left - margins.right),
    tall * (1 - margins.top - margins.bottom),
  ];
  let distance = 0;
  for (const corner of cornersOf(box)) {
    const from = corner.sub(centre);
    const nearer = from.dot(direction);
    distance = Math.max(
      distance,
      nearer + Math.abs(from.dot(right)) / freeWide,
      nearer + Math.abs(from.dot(up)) / freeTall,
    );
  }
  return { target: centre, position: centre.clone().addScaledVector(direction, distance) };
}

/** The middle of what the margins leave free, from -1 to 1 to the right and up: where the camera's target is seen. */
export function middleOf({ left, right, top, bottom }: Margins): Vector2 {
  return new Vector2(left - right, bottom - top);
}

/** Shifts what a camera sees so that its target lies in the middle of what the margins leave free. Sizes in points. */
export function shiftView(camera: PerspectiveCamera, margins: Margins, width: number, height: number): void {
  const { x, y } = middleOf(margins);
  camera.setViewOffset(width, height, (-x * width) / 2, (y * height) / 2, width, height);
}

function cornersOf({ min, max }: Box3): Vector3[] {
  return [min.x, max.x].flatMap((x) =>
    [min.y, max.y].flatMap((y) => [min.z, max.z].map((z) => new Vector3(x, y, z))),
  );
}

/** A box around a point, to look at something small. mm */
export function boxAround(point: Vector3, size: number): Box3 {
  return new Box3().setFromCenterAndSize(point, new Vector3(size, size, size));
}
