import { Group } from 'three';
import { LineMaterial } from 'three/examples/jsm/lines/LineMaterial.js';
import { LineSegments2 } from 'three/examples/jsm/lines/LineSegments2.js';
import { LineSegmentsGeometry } from 'three/examples/jsm/lines/LineSegmentsGeometry.js';
import { CSS2DObject } from 'three/examples/jsm/renderers/CSS2DRenderer.js';
import type { FieldPicture } from '../../parts/index.js';
import { contourLines, onBothSides, type PlaneLine } from '../field/contours.js';
import { intendedInWords } from '../field/intended.js';
import { LEVELS } from '../field/ramp.js';
import { FieldPaint } from './field-paint.js';
import type { Palette } from './look.js';

/** Points on the screen. */
const LEVEL_WIDTHS = [1.1, 1.4, 1.8, 3] as const;
const FIELD_LINE_WIDTH = 1.1;
/** Over the paint, under the ways. */
const ORDER = 4;

/** What is drawn of the solved field. */
export interface FieldDrawn {
  readonly picture: FieldPicture;
  /** What its shares are multiplied by. */
  readonly scale: number;
  /** degrees, of the cut that it is painted on */
  readonly angle: number;
  readonly lines: boolean;
  readonly palette: Palette;
  /** Chooses the weakest place’s finding; undefined where there is none. */
  readonly onWeakest: (() => void) | undefined;
}

/** The field painted on the cut, its lines, and the weakest place. */
export class FieldLayer {
  readonly group = new Group();
  private paint: FieldPaint | undefined;
  private painted: Pick<FieldDrawn, 'picture' | 'palette'> | undefined;
  private readonly over = new Group();

  constructor() {
    this.group.add(this.over);
  }

  /** Whether something is drawn. */
  get shown(): boolean {
    return this.paint !== undefined;
  }

  show(drawn: FieldDrawn | undefined): void {
    this.clearOver();
    if (!drawn) {
      this.clearPaint();
      return;
    }
    const { picture, scale, angle, lines, palette, onWeakest } = drawn;
    if (this.painted?.picture !== picture || this.painted.palette !== palette) {
      this.clearPaint();
      this.paint = new FieldPaint(picture.grid, palette.field);
      this.painted = { picture, palette };
      this.group.add(this.paint.mesh);
    }
    this.paint!.setScale(scale);
    this.group.rotation.z = (angle * Math.PI) / 180;
    if (scale > 0) {
      for (const [i, level] of LEVELS.entries()) {
        const lines = contourLines(picture.grid, level / scale);
        this.lines(lines, palette.field.levels[i]!, LEVEL_WIDTHS[i]!);
      }
    }
    if (lines) this.lines(onBothSides(picture.lines), palette.field.fieldLine, FIELD_LINE_WIDTH);
    this.weakest(picture.weakest, onWeakest);
  }

  dispose(): void {
    this.show(undefined);
  }

  private lines(lines: readonly PlaneLine[], colour: number, width: number): void {
    const ends: number[] = [];
    for (const line of lines) {
      for (let i = 0; i + 3 < line.length; i += 2) {
        const [x, z, nextX, nextZ] = [line[i]!, line[i + 1]!, line[i + 2]!, line[i + 3]!];
        ends.push(x, 0, z, nextX, 0, nextZ);
      }
    }
    if (ends.length === 0) return;
    const geometry = new LineSegmentsGeometry().setPositions(ends);
    const drawn = new LineSegments2(geometry, new LineMaterial({ color: colour, linewidth: width }));
    drawn.renderOrder = ORDER;
    this.over.add(drawn);
  }

  private weakest(
    { id, title, at: [r, z] }: FieldPicture['weakest'],
    choose: (() => void) | undefined,
  ): void {
    const element = document.createElement('div');
    element.className = `weakest${choose ? ' choosable' : ''}`;
    // A copy of what the legend offers to keys and screen readers.
    element.setAttribute('aria-hidden', 'true');
    const words = document.createElement('span');
    words.append(Object.assign(document.createElement('b'), { textContent: 'weakest' }), ` ${title}`);
    element.append(words);
    const intended = intendedInWords(id);
    if (choose) {
      element.addEventListener('pointerdown', (event) => {
        event.stopPropagation();
        choose();
      });
    } else if (intended) words.title = intended;
    const label = new CSS2DObject(element);
    label.position.set(-r, 0, z);
    this.over.add(label);
  }

  private clearOver(): void {
    for (const child of [...this.over.children]) {
      this.over.remove(child);
      if (child instanceof CSS2DObject) child.element.remove();
      if (child instanceof LineSegments2) {
        child.geometry.dispose();
        child.material.dispose();
      }
    }
  }

  private clearPaint(): void {
    if (this.paint) this.group.remove(this.paint.mesh);
    this.paint?.dispose();
    this.paint = undefined;
    this.painted = undefined;
  }
}
