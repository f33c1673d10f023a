import type { Frame } from './frame.js';
import { durationMs } from './interval.js';
import { calibrationOf, type Night } from './night.js';

/** Lights that need the same calibration frames. Absent: not in the headers. */
export interface LightGroup {
  readonly train: string;
  readonly filter?: string;
  readonly gain?: number;
  readonly offset?: number;
  readonly binning?: string;
  /** Sensor temperature, whole degrees Celsius: the setpoint if known. */
  readonly temperatureC?: number;
  /** Requested exposure, seconds. */
  readonly seconds: number;
  readonly lights: number;
}

/** Number of matching calibration frames in the session's folders. */
export interface Coverage extends LightGroup {
  readonly darks: number;
  readonly flats: number;
  readonly bias: number;
  readonly darkFlats: number;
}

/** Sensor temperatures this close count as equal, °C. Common practice, no source. */
export const TEMPERATURE_TOLERANCE_C = 1;
/** Exposures this close count as equal, as a fraction. */
export const EXPOSURE_TOLERANCE = 0.01;

const binningOf = (frame: Frame): string | undefined =>
  frame.header?.binning === undefined ? undefined : `${frame.header.binning.x}×${frame.header.binning.y}`;

function temperatureOf(frame: Frame): number | undefined {
  const value = frame.header?.setTemperatureC ?? frame.header?.sensorTemperatureC;
  return value === undefined ? undefined : Math.round(value);
}

const secondsOf = (frame: Frame): number => (frame.askedMs ?? durationMs(frame.exposure)) / 1000;

/** Whether the settings that every kind of calibration frame shares with its lights are equal. */
function sameCamera(group: LightGroup, frame: Frame): boolean {
  return (
    frame.train === group.train &&
    frame.header?.gain === group.gain &&
    frame.header?.offset === group.offset &&
    binningOf(frame) === group.binning
  );
}

function sameTemperature(group: LightGroup, frame: Frame): boolean {
  const temperature = temperatureOf(frame);
  if (group.temperatureC === undefined || temperature === undefined) return group.temperatureC === temperature;
  return Math.abs(temperature - group.temperatureC) <= TEMPERATURE_TOLERANCE_C;
}

function groupsOf(frames: readonly Frame[]): LightGroup[] {
  const groups = new Map<string, Counted>();
  // Consecutive frames of a train belong to one group: nothing is allocated for them.
  const latest = new Map<string, Counted>();
  for (const frame of frames) {
    const last = latest.get(frame.train);
    const counted = last !== undefined && isOf(last.group, frame) ? last : counting(groups, groupOf(frame));
    counted.lights++;
    latest.set(frame.train, counted);
  }
  return [...groups.values()].map(({ group, lights }) => ({ ...group, lights }));
}

interface Counted {
  readonly group: LightGroup;
  lights: number;
}

function counting(groups: Map<string, Counted>, group: LightGroup): Counted {
  const { train, filter, gain, offset, binning, temperatureC, seconds } = group;
  const key = JSON.stringify([train, filter, gain, offset, binning, temperatureC, seconds]);
  const counted = groups.get(key) ?? { group, lights: 0 };
  groups.set(key, counted);
  return counted;
}

function groupOf(frame: Frame): LightGroup {
  const [binning, temperatureC] = [binningOf(frame), temperatureOf(frame)];
  const { filter, header } = frame;
  return {
    train: frame.train,
    seconds: secondsOf(frame),
    lights: 0,
    ...(filter === undefined ? {} : { filter }),
    ...(header?.gain === undefined ? {} : { gain: header.gain }),
    ...(header?.offset === undefined ? {} : { offset: header.offset }),
    ...(binning === undefined ? {} : { binning }),
    ...(temperatureC === undefined ? {} : { temperatureC }),
  };
}

function isOf(group: LightGroup, frame: Frame): boolean {
  return (
    sameCamera(group, frame) &&
    frame.filter === group.filter &&
    secondsOf(frame) === group.seconds &&
    temperatureOf(frame) === group.temperatureC
  );
}

/** Frames that calibrate lights. */
export type CalibrationKind = 'dark' | 'flat' | 'bias' | 'dark-flat';

/** Whether a frame calibrates the lights of a group, by kind. */
const MATCHES: Readonly<Record<CalibrationKind, (group: LightGroup, frame: Frame) => boolean>> = {
  dark: (group, frame) =>
    sameCamera(group, frame) &&
    sameTemperature(group, frame) &&
    Math.abs(secondsOf(frame) - group.seconds) <= EXPOSURE_TOLERANCE * group.seconds,
  flat: (group, frame) =>
    frame.train === group.train && frame.filter === group.filter && binningOf(frame) === group.binning,
  bias: sameCamera,
  'dark-flat': sameCamera,
};
const KINDS = Object.keys(MATCHES) as CalibrationKind[];

/** The calibration frames that match any of the lights, by kind; rules as for {@link coverageOf}. */
export function calibrationFor<T extends Frame>(
  lights: readonly Frame[],
  calibration: readonly T[],
): ReadonlyMap<CalibrationKind, readonly T[]> {
  const groups = groupsOf(lights.filter((frame) => frame.header !== undefined));
  return new Map(
    KINDS.map((kind) => [
      kind,
      calibration.filter((frame) => frame.kind === kind && groups.some((group) => MATCHES[kind](group, frame))),
    ]),
  );
}

/** The setting of a light that its darks must share. */
export function settingOf(light: Frame): LightGroup {
  return groupOf(light);
}

/**
 * Calibration coverage of a night: for each kind of light, how many darks, flats and bias frames match it.
 *
 * A dark matches in train, gain, offset, binning, temperature and exposure; a flat in train, filter and binning; a bias
 * frame in train, gain, offset and binning; a dark flat like bias frames. A value missing in one header only matches
 * one missing in the other. Lights without a file have no header and are left out.
 */
export function coverageOf(night: Pick<Night, 'timeline' | 'accounts'>): Coverage[] {
  const calibration = calibrationOf(night);
  const count = (kind: CalibrationKind, group: LightGroup): number =>
    calibration.filter((frame) => frame.kind === kind && MATCHES[kind](group, frame)).length;
  return groupsOf(night.accounts.lights.filter((frame) => frame.header !== undefined)).map((group) => ({
    ...group,
    darks: count('dark', group),
    flats: count('flat', group),
    bias: count('bias', group),
    darkFlats: count('dark-flat', group),
  }));
}
