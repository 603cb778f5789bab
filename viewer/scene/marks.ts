import { type Camera, Group, Vector2, Vector3 } from 'three';
import { Line2 } from 'three/examples/jsm/lines/Line2.js';
import { LineGeometry } from 'three/examples/jsm/lines/LineGeometry.js';
import { LineMaterial } from 'three/examples/jsm/lines/LineMaterial.js';
import { CSS2DObject } from 'three/examples/jsm/renderers/CSS2DRenderer.js';
import { cutDirections, type Finding, fitInWords, type Vec3 } from '../../parts/index.js';
import { dodge } from '../rail/layout.js';
import type { MachineView, Section } from '../worker/messages.js';
import type { Gap } from './distance.js';
import type { Palette } from './look.js';

/** Points on the screen that a drawn line is wide. */
const LINE = 2.4;
const CHOSEN_LINE = 4.5;

/** Something drawn over the machine: lines and labels that are made anew together. */
class Marks {
  readonly group = new Group();

  clear(): void {
    for (const child of [...this.group.children]) {
      this.group.remove(child);
      if (child instanceof CSS2DObject) child.element.remove();
      if (child instanceof Line2) {
        child.geometry.dispose();
        child.material.dispose();
      }
    }
  }

  /** @param onTop not hidden by what lies before it */
  protected line(
    points: readonly Vec3[],
    colour: number,
    width: number,
    onTop: boolean,
    dashed = false,
  ): Line2 {
    const geometry = new LineGeometry();
    geometry.setPositions(points.flat());
    const material = new LineMaterial({ color: colour, linewidth: width, depthTest: !onTop, dashed });
    material.dashSize = 6;
    material.gapSize = 4;
    const line = new Line2(geometry, material);
    if (dashed) line.computeLineDistances();
    line.renderOrder = 10;
    this.group.add(line);
    return line;
  }

  protected label(text: string, at: Vec3, className: string, anchor = new Vector2(0.5, 0.5)): CSS2DObject {
    const element = document.createElement('div');
    element.className = className;
    element.textContent = text;
    const label = new CSS2DObject(element);
    label.position.set(...at);
    label.center.copy(anchor);
    this.group.add(label);
    return label;
  }
}

/** The ways of a spark: those that need a hand, and the chosen one whatever it is. */
export class WayMarks extends Marks {
  show(
    findings: readonly Finding[],
    chosen: Finding | undefined,
    shown: boolean,
    palette: Palette,
    choose: (id: string) => void,
  ): void {
    this.clear();
    const drawn = shown ? findings.filter(({ severity, id }) => severity !== 'ok' && id !== chosen?.id) : [];
    for (const finding of drawn) this.finding(finding, false, palette, choose);
    if (chosen) this.finding(chosen, true, palette, choose);
  }

  private finding(finding: Finding, chosen: boolean, palette: Palette, choose: (id: string) => void): void {
    const { at, severity, title } = finding;
    if (!at) return;
    const points = 'path' in at ? at.path : [at.point];
    if (points.length > 1) {
      this.line(points, palette.severity[severity], chosen ? CHOSEN_LINE : LINE, true, !chosen);
    }
    const middle = points[Math.floor((points.length - 1) / 2)]!;
    const pin = this.label('', middle, `pin ${severity}${chosen ? ' chosen' : ''}`);
    pin.element.title = title;
    // A copy of what rail and list offer to keys and screen readers.
    pin.element.setAttribute('aria-hidden', 'true');
    pin.element.addEventListener('pointerdown', (event) => {
      event.stopPropagation();
      choose(finding.id);
    });
  }
}

/** mm around a fit that is flown to: its clearance is seen there. */
const AROUND_FIT = 24;

/** Air between two callouts, and of their column from what they are about: points on the screen. */
const CALLOUT = { air: 4, aside: 46 };

/** Clearances of the fits that the cut shows: a column of callouts beside the machine, each with a line to its place. */
export class FitMarks {
  private readonly host = document.createElement('div');
  private readonly lines = document.createElementNS('http://www.w3.org/2000/svg', 'svg');
  private callouts: {
    readonly places: readonly Vector3[];
    readonly label: HTMLElement;
    readonly line: SVGPathElement;
  }[] = [];

  constructor(overlay: HTMLElement) {
    this.host.className = 'callouts';
    this.lines.setAttribute('aria-hidden', 'true');
    this.host.append(this.lines);
    overlay.append(this.host);
  }

  /** @param look brings a place into the picture when its callout is pressed */
  show(
    machine: MachineView | undefined,
    section: Section | undefined,
    look: (place: Vector3, size: number) => void,
  ): void {
    this.clear();
    if (!machine || !section) return;
    const { along } = cutDirections(section.angle);
    for (const { id, points } of section.fits) {
      const fit = machine.fits.find((each) => each.fit.id === id)?.fit;
      if (!fit || points.length === 0) continue;
      const label = document.createElement('button');
      label.type = 'button';
      label.className = 'fit';
      const words = fitInWords(fit);
      const range = words.lastIndexOf('(');
      label.append(word('b', fit.title), word('span', words.slice(0, range)), word('i', words.slice(range)));
      const line = document.createElementNS('http://www.w3.org/2000/svg', 'path');
      this.host.append(label);
      this.lines.append(line);
      const places = points.map(([x, z]) => new Vector3(x * along[0], x * along[1], z));
      const rightmost = points.indexOf(points.reduce((best, point) => (point[0] > best[0] ? point : best)));
      label.addEventListener('click', () => look(places[rightmost]!, AROUND_FIT));
      this.callouts.push({ places, label, line });
    }
  }

  /** Puts the callouts where they belong in this picture: to the right of the machine, none over another. */
  arrange(camera: Camera, width: number, height: number, edge: number): void {
    const seen = this.callouts
      .map((callout) => {
        // Of several places of one fit the rightmost on the screen.
        const places = callout.places.map((place) => {
          const at = place.clone().project(camera);
          return { x: ((at.x + 1) / 2) * width, y: ((1 - at.y) / 2) * height };
        });
        return { ...callout, at: places.reduce((best, place) => (place.x > best.x ? place : best)) };
      })
      .sort((a, b) => a.at.y - b.at.y);
    const inside = seen.filter(({ at }) => at.y >= 0 && at.y <= height && at.x >= 0 && at.x <= width);
    for (const callout of seen) {
      callout.label.hidden = !inside.includes(callout);
      callout.line.setAttribute('d', '');
    }
    // Shown before they are measured: what is hidden has no size.
    const sizes = inside.map(({ label }) => ({ wide: label.offsetWidth, tall: label.offsetHeight }));
    const room = Math.max(0, ...sizes.map(({ tall }) => tall)) + CALLOUT.air;
    const middles = dodge(
      inside.map(({ at }) => at.y),
      room,
      { low: room / 2, high: height - room / 2 },
    );
    const widest = Math.max(0, ...sizes.map(({ wide }) => wide));
    const x = Math.min(width - widest - 4, Math.max(edge, ...inside.map(({ at }) => at.x)) + CALLOUT.aside);
    for (const [i, { at, label, line }] of inside.entries()) {
      const y = middles[i]!;
      label.style.transform = `translate(${x}px, ${y}px) translateY(-50%)`;
      line.setAttribute('d', `M${at.x} ${at.y}L${x - 14} ${y}H${x - 4}`);
    }
  }

  clear(): void {
    for (const { label, line } of this.callouts) {
      label.remove();
      line.remove();
    }
    this.callouts = [];
  }
}

/** What was measured between two surfaces. */
export class GapMarks extends Marks {
  show(gap: Gap | undefined, palette: Palette): void {
    this.clear();
    if (!gap) return;
    this.line([gap.from, gap.to], palette.accent, CHOSEN_LINE, true);
    const middle = new Vector3(...gap.from).lerp(new Vector3(...gap.to), 0.5);
    this.label(
      `${gap.distance.toFixed(2)} mm`,
      [middle.x, middle.y, middle.z],
      'gap',
      new Vector2(-0.15, 1.2),
    );
  }
}

function word(tag: 'b' | 'span' | 'i', text: string): HTMLElement {
  const element = document.createElement(tag);
  element.textContent = text;
  return element;
}
