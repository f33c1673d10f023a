/** A drawn night as lights that were measured, and its pointing as it is read from them. */
import type { Activity, Frame, StarReading, Train } from '../../../src/model/index.js';
import { type MeasuredLight, pointingOf, registerLights } from '../../../src/stars/pointing/index.js';
import type { FrameToRegister } from '../../../src/stars/registration/index.js';
import { SENSOR, skyOf } from '../registration/drawn-sky.js';
import { exposuresOf, frameLists, HERON_SCALE, type NightPlan, WREN_SCALE } from './drawn-night.js';

export const HERON: Train = { id: 'heron', role: 'pilot', focalLengthMm: 480, pixelSizeUm: 3.76 };
export const WREN: Train = { id: 'wren', role: 'companion', focalLengthMm: 600, pixelSizeUm: 3.76 };

export function light(train: string, frame: FrameToRegister, seconds: number, target = 'NGC 281'): MeasuredLight {
  const exposure = { startMs: frame.startMs, endMs: frame.startMs + 1000 * seconds } as Frame['exposure'];
  return {
    frame: {
      id: frame.key,
      train,
      kind: 'light',
      exposure,
      target,
      filter: 'Ha',
      provenance: 'file-only',
      sources: [],
    },
    measured: {
      stars: {
        by: 'full' as StarReading,
        count: frame.stars.length,
        fwhm: frame.fwhm,
        fwhmUncertainty: 0.01,
        halfFlux: 1.5,
        elongation: 1.05,
        direction: 0,
        agreement: 0.1,
        background: 400,
        noise: 8,
        flux: null,
        saturated: 0,
        shift: null,
      },
      list: { ...SENSOR, stars: [...frame.stars].sort((a, b) => b.flux - a.flux) },
    },
  };
}

export function drawnLights(plan: NightPlan) {
  const sky = skyOf(plan.seed, 400);
  const { pilot, companion, dithersMs } = exposuresOf(plan);
  const seconds = plan.subSeconds ?? 170;
  const herons = frameLists(sky, pilot, { turn: 12, scaleArcsec: HERON_SCALE, most: 150 }, 1);
  const wrens = frameLists(sky, companion, { turn: 15, scaleArcsec: WREN_SCALE, most: 150 }, 2);
  const moves = dithersMs.map(
    (atMs): Activity => ({
      kind: 'dither-move',
      span: { startMs: atMs, endMs: atMs + 3000 } as Activity['span'],
      certainty: 'measured',
      facts: { pixels: 5 },
      sources: [],
    }),
  );
  return {
    lights: [...herons.map((f) => light('heron', f, seconds)), ...wrens.map((f) => light('wren', f, seconds))],
    moves,
  };
}

export const TARGET = { name: 'NGC 281', aliases: [], raDeg: 13.2, decDeg: 56.6, origin: 'rig-file' as const };

export function read(
  lights: readonly MeasuredLight[],
  activities: readonly Activity[],
  trains: readonly Train[] = [HERON, WREN],
) {
  return pointingOf(registerLights(lights), {
    gathered: { trains, guideSource: { source: 'off-axis', train: 'heron' } },
    timeline: { activities, targets: [TARGET] },
  });
}
