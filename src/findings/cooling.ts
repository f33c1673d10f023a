/**
 * Frames taken while the sensor was not at its set temperature.
 */
import { counted, duration, median, type JudgedFrame, type NightFacts, lightsOf } from '../model/index.js';
import type { FindingModule } from './finding.js';
import { exposedMs } from './trains.js';
import { clock, frameLinks } from './wording.js';

interface Warm {
  readonly frame: JudgedFrame;
  readonly setC: number;
  readonly offC: number;
}

export const cooling: FindingModule<{
  readonly toleranceC: number;
  readonly minimumFrames: number;
  readonly allNightShare: number;
}> = {
  id: 'cooling',
  title: 'Sensor temperature',
  needs: ['temperatures', 'lights'],
  // Darks match within a degree; common practice, no source.
  defaults: { toleranceC: 1, minimumFrames: 1, allNightShare: 0.5 },
  find(night, { toleranceC, minimumFrames, allNightShare }) {
    return night.gathered.trains.flatMap(({ id }) => {
      const known = lightsOf(night, id).flatMap(measured);
      const warm = known.filter((k) => Math.abs(k.offC) > toleranceC);
      if (warm.length < minimumFrames) return [];
      const frames = warm.map((w) => w.frame);
      const setC = median(warm.map((w) => w.setC));
      const allNight = warm.length >= allNightShare * known.length;
      const atStart = known.slice(0, warm.length).every((k) => warm.includes(k));
      return [
        {
          title: allNight
            ? `${id}’s camera did not hold ${degrees(setC)}`
            : atStart
              ? `${id} began before its camera was at ${degrees(setC)}`
              : `${id}’s camera left ${degrees(setC)} for ${counted(frames.length, 'frame')}`,
          // The frames are good: what is missing are darks at their temperature, and that is no loss of time.
          costMs: 0,
          price: `${duration(exposedMs(frames))} off ${degrees(setC)}`,
          frames: frames.length,
          evidence: [
            `${counted(frames.length, 'frame')} of ${known.length} more than ${toleranceC} °C off: ` +
              `median ${degrees(median(warm.map((w) => w.setC + w.offC)))}, worst ${degrees(extreme(warm))}, ` +
              `set to ${degrees(setC)}`,
            ...logged(night, id),
            'these frames need darks taken at their own temperature',
          ],
          advice: allNight
            ? `Set a temperature that ${id}’s cooler holds with power to spare, for example ` +
              `${degrees(Math.ceil(extreme(warm) / 5) * 5)}, and take darks at it.`
            : atStart
              ? `Start cooling ${id} earlier, so that it is at ${degrees(setC)} about ten minutes before ` +
                'nautical dusk.'
              : `Find out what limited ${id}’s cooler: power, a dew heater on the same supply, a warm night.`,
          confidence: 'high' as const,
          links: [{ text: 'Calibration coverage', anchor: 'calibration' }, ...frameLinks(frames, night, 4)],
        },
      ];
    });
  },
};

function measured(frame: JudgedFrame): Warm[] {
  const { sensorTemperatureC, setTemperatureC } = frame.header ?? {};
  return sensorTemperatureC === undefined || setTemperatureC === undefined
    ? []
    : [{ frame, setC: setTemperatureC, offC: sensorTemperatureC - setTemperatureC }];
}

/** The temperature farthest from the setpoint. */
function extreme(warm: readonly Warm[]): number {
  const worst = warm.reduce((a, b) => (Math.abs(b.offC) > Math.abs(a.offC) ? b : a));
  return worst.setC + worst.offC;
}

/** When the log's own readings came within a degree. */
function logged(night: NightFacts, train: string): string[] {
  const reached = night.timeline.coolers.find(
    ({ train: own, temperatureC, setpointC }) =>
      own === train && temperatureC !== undefined && setpointC !== undefined && Math.abs(temperatureC - setpointC) <= 1,
  );
  return reached ? [`the log shows it reached at ${clock(reached.atMs, night)}`] : [];
}

function degrees(value: number): string {
  return `${value < 0 ? '−' : ''}${Number(Math.abs(value).toFixed(1))} °C`;
}
