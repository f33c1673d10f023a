/**
 * Frames taken nearer to the Moon than their filter bears.
 */
import {
  counted,
  duration,
  durationMs,
  filterMeant,
  filterRow,
  filterWavelengthNm,
  groupBy,
  listed,
  median,
  percent,
  sum,
  type JudgedFrame,
  ownValue,
} from '../model/index.js';
import type { FindingModule } from './finding.js';
import { exposedMs } from './trains.js';
import { firstOf, frameLinks } from './wording.js';

/** Lines beyond this wavelength are the deep red ones, nm. */
const DEEP_RED_NM = 600;

export const moonNear: FindingModule<{
  readonly broadbandDeg: number;
  readonly oxygenDeg: number;
  readonly redDeg: number;
  readonly minimumIllumination: number;
  readonly minimumFrames: number;
}> = {
  id: 'moon-near',
  title: 'Moon too near for the filter',
  needs: ['target-place', 'lights'],
  // Distances to keep from a full Moon, less with a smaller one: common practice, no source.
  defaults: { broadbandDeg: 90, oxygenDeg: 60, redDeg: 35, minimumIllumination: 0.25, minimumFrames: 3 },
  find(night, { broadbandDeg, oxygenDeg, redDeg, minimumIllumination, minimumFrames }) {
    const keep = (filter: string | undefined): number =>
      isRed(filter ?? '') ? redDeg : isNarrowLine(filter ?? '') ? oxygenDeg : broadbandDeg;
    const wanted = (frame: JudgedFrame): number => keep(frame.filter) * Math.sqrt(frame.sky?.moonIllumination ?? 0);
    const near = night.accounts.lights.filter(
      (f) =>
        f.verdict !== 'lost' &&
        f.sky &&
        f.sky.moonAltitudeDeg > 0 &&
        f.sky.moonIllumination >= minimumIllumination &&
        f.sky.moonSeparationDeg < wanted(f),
    );
    return [...groupBy(near, (f) => f.train)].flatMap(([train, frames]) => {
      if (frames.length < minimumFrames) return [];
      const weighed = frames.flatMap(({ id, exposure }) => {
        const worth = ownValue(night.worth?.frames, id);
        return worth && worth.moonlessShare > 0 ? [{ exposure, worth }] : [];
      });
      // What moonlight took of them, in open-shutter time, where the frames are weighed; it is not lost but noisier.
      const costMs = Math.round(
        sum(weighed.map(({ exposure, worth }) => durationMs(exposure) * (1 - worth.share / worth.moonlessShare))),
      );
      const filters = groupBy(frames, (f) => f.filter ?? 'no filter');
      return [
        {
          title: `${train} imaged ${listed([...filters.keys()])} too near the Moon`,
          costMs,
          frames: frames.length,
          evidence: [
            ...firstOf(
              [...filters].map(
                ([filter, own]) =>
                  `${filter}: ${counted(own.length, 'frame')}, ${duration(exposedMs(own))}, ${median(own.map((f) => f.sky?.moonSeparationDeg ?? NaN)).toFixed(0)}° from a Moon ${percent(median(own.map((f) => f.sky?.moonIllumination ?? NaN)))} lit; ${median(own.map(wanted)).toFixed(0)}° are wanted`,
              ),
            ),
            weighed.length === 0
              ? 'the frames are not weighed: what the moonlight cost is not known'
              : 'this is part of what the Moon took of the whole night, not beside it',
          ],
          advice: `Under this Moon ${[...filters.keys()].some(isRed) ? 'image' : 'take Ha or SII here, or'} a target on the other side of the sky; keep ${listed([...filters.keys()])} for when it is down.`,
          ...(weighed.length > 0 ? { winMs: costMs } : {}),
          confidence: 'low' as const,
          links: [
            { text: 'Sky', anchor: 'sky' },
            { text: 'Effective integration', anchor: 'effective' },
            ...frameLinks(frames, night, 3),
          ],
        },
      ];
    });
  },
};

/** The lines of oxygen and hydrogen in the green and blue bear less moonlight than the red ones. */
function isNarrowLine(filter: string): boolean {
  const meant = filterMeant(filter);
  return meant !== null && filterRow(meant).kind === 'narrow';
}

/** The deep red lines bear most moonlight. */
function isRed(filter: string): boolean {
  return isNarrowLine(filter) && (filterWavelengthNm(filter) ?? 0) > DEEP_RED_NM;
}
