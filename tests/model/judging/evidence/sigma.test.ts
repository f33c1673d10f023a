import { describe, expect, it } from 'vitest';
import { starSigmas } from '../../../../src/model/judging/evidence/sigma.js';
import { light } from '../../../support/events.js';
import { stars } from '../measured.js';

describe('the usual width of a train’s stars', () => {
  it('is measured in pixels of the sensor, however these were binned', () => {
    const frame = light('wren', '21:00:00', 300);
    const trains = [
      { id: 'wren', role: 'companion', focalLengthMm: 600, pixelSizeUm: 3.76, pixelScaleArcsec: 2.585 },
    ] as const;
    const measured = { frames: { [frame.id]: stars({ fwhm: 4 }) } };
    // 4 px of 1.293″: 5.17″, 2.355 sigma.
    expect(starSigmas({ lights: [frame], trains, stars: measured }).get('wren')).toBeCloseTo(2.195, 2);
  });
});
