import type { ComponentType } from 'preact';
import { PinsTrack, pinsWidth } from './pins-track.js';
import { PotentialTrack, potentialWidth } from './potential-track.js';
import type { Rail } from './rail.js';
import { ScaleTrack, scaleWidth } from './scale-track.js';
import { SpansTrack, spansWidth } from './spans-track.js';

/** One strip of the rail. Adding a track means adding it here. */
export interface Track {
  readonly id: string;
  /** Over the strip, where there is room for it. */
  readonly title: string;
  /** Pixels that it takes. */
  width(rail: Rail): number;
  readonly component: ComponentType<{ readonly rail: Rail; readonly width: number }>;
}

/** From left to right. */
export const TRACKS: readonly Track[] = [
  { id: 'scale', title: 'height', width: scaleWidth, component: ScaleTrack },
  { id: 'spans', title: 'pieces', width: spansWidth, component: SpansTrack },
  { id: 'potential', title: 'potential', width: potentialWidth, component: PotentialTrack },
  { id: 'pins', title: 'findings', width: pinsWidth, component: PinsTrack },
];
