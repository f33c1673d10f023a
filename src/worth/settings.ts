/** Which calibration frames belong to which lights, and what a group of frames was mostly taken with. */
import { durationMs, groupBy, median, type Frame } from '../model/index.js';

/** Sensor temperatures this close count as equal, °C. Common practice, no source. */
const TEMPERATURE_TOLERANCE_C = 1;
/** Exposures this close count as equal, as a fraction. */
const EXPOSURE_TOLERANCE = 0.01;

/** Camera settings that determine the meaning of a level in ADU: frames with one key are comparable. */
export function settingsKey(frame: Frame): string {
  const { header } = frame;
  return JSON.stringify([
    header?.gain ?? null,
    header?.offset ?? null,
    header?.binning?.x ?? null,
    header?.binning?.y ?? null,
  ]);
}

/** Whether a dark's level is a light's level without its sky: same settings, temperature and exposure. */
export function darkFits(dark: Frame, light: Frame): boolean {
  if (dark.train !== light.train || settingsKey(dark) !== settingsKey(light)) return false;
  const [cold, warm] = [temperatureC(dark), temperatureC(light)];
  if (cold === undefined || warm === undefined || Math.abs(cold - warm) > TEMPERATURE_TOLERANCE_C) return false;
  return Math.abs(secondsOf(dark) - secondsOf(light)) <= EXPOSURE_TOLERANCE * secondsOf(light);
}

/** Whether a bias frame has a light's pedestal: same settings. */
export function biasFits(bias: Frame, light: Frame): boolean {
  return bias.train === light.train && settingsKey(bias) === settingsKey(light);
}

/** Exposure in seconds: from the header, else as the shutter was open. */
export function secondsOf(frame: Frame): number {
  return frame.header?.exposureSeconds ?? durationMs(frame.exposure) / 1000;
}

/** The exposure that most of the frames have, in ms; the longest of several. 0 for no frames. */
export function usualExposureMs(frames: readonly Frame[]): number {
  const lengths = [
    ...groupBy(
      frames.map((f) => Math.round(durationMs(f.exposure))),
      (ms) => Math.round(ms / 500),
    ).values(),
  ];
  const [usual] = lengths.sort((a, b) => b.length - a.length || median(b) - median(a));
  return usual ? Math.round(median(usual)) : 0;
}

/** The median of the known values; `null` when there is none. */
export function medianKnown(values: readonly (number | null | undefined)[]): number | null {
  const known = values.filter((v): v is number => v !== null && v !== undefined && Number.isFinite(v));
  return known.length > 0 ? median(known) : null;
}

function temperatureC({ header }: Frame): number | undefined {
  return header?.setTemperatureC ?? header?.sensorTemperatureC;
}
