import { describe, expect, it } from 'vitest';
import { cooling } from '../../src/findings/cooling.js';
import { ask, found, lights, nightOf, T0 } from './support.js';

const night = (sensor: (i: number) => number, more = {}) =>
  nightOf({
    frames: lights('wren', {
      from: 0,
      seconds: 240,
      count: 20,
      header: (i) => ({ sensorTemperatureC: sensor(i), setTemperatureC: -10 }),
    }),
    ...more,
  });

describe('the sensor’s temperature', () => {
  it('is found when imaging began before the camera was cold', () => {
    const coolers = [
      {
        atMs: T0 + 900_000,
        train: 'wren',
        setpointC: -10,
        temperatureC: -9.8,
        source: { file: 'logs/wren.jsonl', line: 9 },
      },
    ];
    const [finding] = found(
      cooling,
      night((i) => Math.max(-10, -4 - 2 * i), { coolers }),
    );
    expect(finding).toMatchObject({
      title: 'wren began before its camera was at −10 °C',
      frames: 3,
      costMs: 0,
      // The frames are good: darks of their temperature are what is missing.
      price: '12 min off −10 °C',
    });
    expect(finding?.advice).toContain('ten minutes before nautical dusk');
    expect(finding?.evidence.join()).toContain('the log shows it reached at 21:15');
  });

  it('is found when the cooler could not hold it, with a temperature it can', () => {
    const [finding] = found(
      cooling,
      night(() => -7.2),
    );
    expect(finding).toMatchObject({ title: 'wren’s camera did not hold −10 °C', frames: 20 });
    expect(finding?.advice).toContain('for example −5 °C');
  });

  it('is found when it left it for a while', () => {
    expect(
      found(
        cooling,
        night((i) => (i === 9 || i === 10 ? -8 : -10)),
      )[0]?.title,
    ).toBe('wren’s camera left −10 °C for 2 frames');
  });

  it('is not found within a degree', () => {
    expect(
      found(
        cooling,
        night((i) => -10 + (i % 3) * 0.3),
      ),
    ).toEqual([]);
  });

  it('is not assessed where the headers do not say', () => {
    expect(
      ask(
        cooling,
        nightOf({
          frames: lights('wren', { from: 0, seconds: 60, count: 3, header: () => ({ sensorTemperatureC: -3 }) }),
        }),
      ),
    ).toEqual({ notAssessed: 'sensor and set temperatures in the headers' });
  });
});
