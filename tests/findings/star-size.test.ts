import { describe, expect, it } from 'vitest';
import { asRecorded } from '../../src/findings/star-size.js';
import { withoutSmallPixel } from '../../src/stars/measure/summary.js';
import { itemAt } from '../../src/model/index.js';
import { lights, nightOf } from './support.js';

const sizedAs = (fwhm: number, bin = 1) => {
  const frames = lights('heron', { from: 0, seconds: 60, count: 1, header: () => ({ binning: { x: bin, y: bin } }) });
  const frame = itemAt(nightOf({ frames }).accounts.lights, 0);
  return asRecorded({ frame, size: fwhm * bin, zenith: fwhm * bin * 0.9, by: 'pixels' });
};

describe('sizes of stars', () => {
  it('are brought back to the width on the sensor, which grows evenly where the pixel comes into the measured one', () => {
    for (let recorded = 1; recorded < 2.4; recorded += 0.05) {
      const measured = withoutSmallPixel(recorded, undefined);
      expect(sizedAs(measured).size).toBeCloseTo(recorded, 9);
      expect(sizedAs(measured).zenith).toBeCloseTo(recorded * 0.9, 9);
      expect(sizedAs(measured, 2).size).toBeCloseTo(2 * recorded, 9);
    }
  });
});
