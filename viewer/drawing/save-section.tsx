import { render } from 'preact';
import { saveAs, tidyName } from '../page/save-as.js';
import { PALETTES } from '../scene/look.js';
import type { MachineView, Section } from '../worker/messages.js';
import type { DrawnField } from './field-drawn.js';
import { placeLabels } from './labels.js';
import { SectionSheet } from './section-sheet.js';
import { extentOf, type ViewBox } from './view-box.js';

/** mm that one point of letters and lines takes on paper: letters then are about 6 mm tall, to be read at arm’s length. */
const PER_PIXEL = 0.55;
/** mm on either side for labels, and above and below for title and scale bar. */
const ASIDE = 150;
const ABOVE = 40;

/** The drawing as a file of its own, at true size: one unit is one millimetre. */
export function sectionFile(
  machine: MachineView,
  section: Section,
  hidden: ReadonlySet<string>,
  apart: boolean,
  field?: DrawnField,
): string {
  const { left, right, bottom, top } = extentOf(machine, section, apart);
  const view: ViewBox = {
    x: left - ASIDE,
    y: -top - ABOVE,
    width: right - left + 2 * ASIDE,
    height: top - bottom + 2 * ABOVE,
  };
  const labels = apart ? [] : placeLabels(machine, section, view, PER_PIXEL, 0, false);
  // Paper is white where it is printed.
  const palette = { ...PALETTES.light, paper: 0xffffff };
  const host = document.createElement('div');
  render(
    <svg
      xmlns="http://www.w3.org/2000/svg"
      role="img"
      aria-label={`${machine.name}, section`}
      viewBox={`${view.x} ${view.y} ${view.width} ${view.height}`}
      width={`${view.width}mm`}
      height={`${view.height}mm`}
    >
      <SectionSheet
        {...{ machine, section, hidden, palette, view, labels, field }}
        perPixel={PER_PIXEL}
        numbers={false}
      />
    </svg>,
    host,
  );
  const text = new XMLSerializer().serializeToString(host.firstElementChild!);
  render(null, host);
  return `<?xml version="1.0" encoding="UTF-8"?>\n${text}\n`;
}

export function saveSection(...[machine, ...rest]: Parameters<typeof sectionFile>): void {
  const file = new Blob([sectionFile(machine, ...rest)], { type: 'image/svg+xml' });
  saveAs(`${tidyName(machine.name)}-section.svg`, file);
}
