import type { MachineView, Section } from '../worker/messages.js';

/** The part of the drawing that is seen: mm along the cut and, downwards, minus height. */
export interface ViewBox {
  readonly x: number;
  readonly y: number;
  readonly width: number;
  readonly height: number;
}

/** mm that the picture may be narrow, and how many times the whole it may be wide. */
const NARROWEST = 4;
const WIDEST = 6;

/**
 * Nearer (factor below 1) or farther, with one point staying where it is.
 * @param home what all of it takes: how far away one can go
 */
export function zoomed(
  view: ViewBox,
  factor: number,
  [x, y]: readonly [number, number],
  home: ViewBox,
): ViewBox {
  const least = NARROWEST / view.width;
  const most = (home.width * WIDEST) / view.width;
  const by = Math.min(Math.max(factor, least), most);
  return {
    x: x + (view.x - x) * by,
    y: y + (view.y - y) * by,
    width: view.width * by,
    height: view.height * by,
  };
}

/** Moved by shares of what is seen. */
export function moved(view: ViewBox, right: number, down: number): ViewBox {
  return { ...view, x: view.x + right * view.width, y: view.y + down * view.height };
}

/** What is drawn, as [along, height] in mm from lowest to highest. */
export interface Extent {
  readonly left: number;
  readonly right: number;
  readonly bottom: number;
  readonly top: number;
}

export function extentOf(machine: MachineView, section: Section, apart: boolean): Extent {
  const { bottom, top, radius } = machine.extent;
  const whole = { left: -radius, right: radius, bottom, top };
  if (!apart) return whole;
  return section.faces
    .flatMap(({ loops }) => loops.flat())
    .reduce(
      (all, [along, z]) => ({
        left: Math.min(all.left, along),
        right: Math.max(all.right, along),
        bottom: Math.min(all.bottom, z),
        top: Math.max(all.top, z),
      }),
      whole,
    );
}

/**
 * The view that shows all of it to the right of the rail.
 * @param wanted pixels a mm: taken where there is room, so that heights match the rail’s
 * @param top height (mm) at the picture’s upper edge at that scale
 */
export function homeView(
  extent: Extent,
  picture: { readonly width: number; readonly height: number },
  rail: number,
  wanted: number,
  top: number,
): ViewBox {
  const margin = 26;
  const free = Math.max(40, picture.width - rail - 2 * margin);
  const tall = Math.max(40, picture.height - 2 * margin);
  const [wide, high] = [extent.right - extent.left, extent.top - extent.bottom];
  const scale = Math.min(wanted, free / wide, tall / high);
  const middle = (extent.left + extent.right) / 2;
  const [width, height] = [picture.width / scale, picture.height / scale];
  return {
    x: middle - (rail + (picture.width - rail) / 2) / scale,
    y: scale === wanted ? -top : -(extent.top + extent.bottom) / 2 - height / 2,
    width,
    height,
  };
}
