import { practice } from './print-time.js';

/** What a printer lays without support, in lines that join and without falling over. */
export const PRINT_LIMITS = {
  overhang: practice(45, 'degrees', 'how far a face may lean out from upright'),
  /** Guides say anything from 5 mm, which comes out clean, to 60; about 10 is what most of them agree on. */
  bridge: practice(10, 'mm', 'widest gap that a line is laid across'),
  wall: practice(2, '', 'lines of the nozzle’s width that make the least wall'),
  gap: practice(0.3, 'mm', 'narrowest gap whose sides do not grow together'),
  stand: practice(0.125, '', 'least breadth of what a part stands on over its height: one to eight'),
};
