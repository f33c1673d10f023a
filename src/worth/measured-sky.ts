/**
 * The sky from the background levels in the headers, or in the pixels. A level includes the camera's pedestal, which is
 * not light: without darks or bias frames that have a level too, and share the lights' settings, or a stated pedestal,
 * it is rejected. Two exposure lengths would give the pedestal as well, if the sky were constant between them; it is
 * not, so that is not done.
 */
import { groupBy, median, type Frame, type JudgedFrame } from '../model/index.js';
import { biasFits, darkFits, secondsOf, settingsKey } from './settings.js';
import type { RelativeSky } from './sky-model.js';

/** Minimum number of frames for a reference. */
const ENOUGH_FRAMES = 3;
/** Above this altitude of the Sun the level contains twilight, degrees. */
const DARK_SUN_DEG = -18;

/** A frame's sky from its level. */
export interface MeasuredSky {
  /** Sky ÷ dark sky at the zenith. */
  readonly ratio: number;
  /** Dark sky at the zenith, electrons per second and pixel; `null` without electrons per ADU. */
  readonly zenithElectronsPerSecond: number | null;
}

export interface SkyMeasurement {
  /** By frame id. */
  readonly skies: ReadonlyMap<string, MeasuredSky>;
  /** Whether levels are relative to the rig file's fixed value for all nights, or to this night's own best. */
  readonly against: 'rig-file' | 'night';
  readonly used: boolean;
  /** How, or why not: a clause without a full stop. */
  readonly how: string;
}

/** The parameters for reading the levels of one train and filter. */
export interface LevelReading {
  /** Lights of one train and filter. */
  readonly lights: readonly JudgedFrame[];
  readonly calibration: readonly Frame[];
  /** The clear sky predicted by the model for a frame, relative to the dark zenith. */
  readonly predicted: (frame: JudgedFrame) => RelativeSky | null;
  readonly electronsPerAdu: (frame: JudgedFrame) => number | null;
  /** Dark current to subtract if the pedestal is a bias frame's. */
  readonly darkElectronsPerSecond: number;
  /** Moonless sky at the zenith, electrons per second and pixel, if fixed in the rig file. */
  readonly zenithElectronsPerSecond?: number | null;
}

interface Rate {
  readonly frame: JudgedFrame;
  /** ADU per second and pixel, without pedestal. */
  readonly rate: number;
  readonly predicted: RelativeSky;
}

/**
 * Sky of each light from its level, relative to the dark zenith sky. The reference is the median level of frames taken
 * with the Moon down, scaled to the zenith by the model; with fewer than three of them, of all frames, using the model
 * including its moonlight.
 *
 * @returns `null` when no header carries a level
 */
export function measureSky(reading: LevelReading): SkyMeasurement | null {
  const levelled = reading.lights.filter((f) => f.header?.backgroundAdu !== undefined);
  if (levelled.length === 0) return null;
  const declined = (how: string): SkyMeasurement => ({ skies: new Map(), against: 'night', used: false, how });
  const withPedestal = levelled.flatMap((frame) => {
    const pedestal = pedestalOf(frame, reading);
    return pedestal === null ? [] : [{ frame, pedestal }];
  });
  if (withPedestal.length === 0) {
    return declined('the camera’s pedestal is unknown: no dark or bias frame of the same settings carries a level');
  }
  const rates = withPedestal.flatMap(({ frame, pedestal }) => rateOf(frame, pedestal, reading));
  const fixed = againstFixed(rates, reading);
  if (fixed) return fixed;
  const skies = new Map<string, MeasuredSky>();
  const ways = new Set<string>();
  for (const alike of groupBy(rates, ({ frame }) => settingsKey(frame)).values()) {
    const zenith = zenithRate(alike);
    if (!zenith) continue;
    ways.add(zenith.how);
    for (const { frame, rate } of alike) {
      const gain = reading.electronsPerAdu(frame);
      skies.set(frame.id, {
        ratio: rate / zenith.rate,
        zenithElectronsPerSecond: gain === null ? null : zenith.rate * gain,
      });
    }
  }
  if (skies.size === 0)
    return declined(`fewer than ${ENOUGH_FRAMES} kept frames in full darkness have a level above the pedestal`);
  return { skies, against: 'night', used: true, how: [...ways].join('; ') };
}

/** Levels relative to the zenith sky fixed in the rig file; `null` if there is none, or a gain is unknown. */
function againstFixed(
  rates: readonly Rate[],
  { zenithElectronsPerSecond, electronsPerAdu }: LevelReading,
): SkyMeasurement | null {
  if (zenithElectronsPerSecond == null || rates.length === 0) return null;
  const skies = new Map<string, MeasuredSky>();
  for (const { frame, rate } of rates) {
    const gain = electronsPerAdu(frame);
    if (gain === null) return null;
    skies.set(frame.id, { ratio: (rate * gain) / zenithElectronsPerSecond, zenithElectronsPerSecond });
  }
  return { skies, against: 'rig-file', used: true, how: 'against the zenith sky that the rig file fixes' };
}

/** Level of a frame without sky, ADU: from darks, else from bias frames or the header, and dark current. */
function pedestalOf(
  light: JudgedFrame,
  { calibration, electronsPerAdu, darkElectronsPerSecond }: LevelReading,
): number | null {
  const levels = (fits: (frame: Frame, light: Frame) => boolean, kind: Frame['kind']): number[] =>
    calibration.flatMap((f) =>
      f.kind === kind && f.header?.backgroundAdu !== undefined && fits(f, light) ? [f.header.backgroundAdu] : [],
    );
  const darks = levels(darkFits, 'dark');
  if (darks.length > 0) return median(darks);
  const bias = levels(biasFits, 'bias');
  const level = bias.length > 0 ? median(bias) : light.header?.pedestalAdu;
  if (level === undefined) return null;
  const gain = electronsPerAdu(light);
  return level + (gain === null ? 0 : (darkElectronsPerSecond * secondsOf(light)) / gain);
}

function rateOf(frame: JudgedFrame, pedestal: number, { predicted }: LevelReading): Rate[] {
  const background = frame.header?.backgroundAdu;
  if (background === undefined) return [];
  const rate = (background - pedestal) / secondsOf(frame);
  const model = predicted(frame);
  return model && rate > 0 && Number.isFinite(rate) ? [{ frame, rate, predicted: model }] : [];
}

function zenithRate(rates: readonly Rate[]): { rate: number; how: string } | null {
  const dark = rates.filter(
    ({ frame }) => frame.verdict === 'kept' && frame.sky !== null && frame.sky.sunAltitudeDeg <= DARK_SUN_DEG,
  );
  const moonless = dark.filter(({ predicted }) => predicted.moon === 0);
  if (moonless.length >= ENOUGH_FRAMES) {
    return {
      rate: median(moonless.map(({ rate, predicted }) => rate / (predicted.dark + predicted.twilight))),
      how: 'against the median of the frames taken with the Moon down',
    };
  }
  if (dark.length < ENOUGH_FRAMES) return null;
  return {
    rate: median(dark.map(({ rate, predicted }) => rate / (predicted.dark + predicted.twilight + predicted.moon))),
    how: 'against the median of all frames less the model’s moonlight, because no frame was taken with the Moon down',
  };
}
