import { describe, expect, it } from 'vitest';
import { measureTransparency } from '../../src/worth/measured-flux.js';
import { clearTransparency } from '../../src/worth/sky-model.js';
import { light, skyAt } from './support.js';

const K = 0.1;

/** A light of a field whose stars give 1000 ADU a second at the zenith through clear air. */
function starred(altitudeDeg: number, cloud = 1, seconds = 300) {
  const sky = skyAt(altitudeDeg);
  return light({
    sky,
    seconds,
    header: { starFluxAdu: 1000 * seconds * clearTransparency(K, sky.airmass ?? NaN) * cloud },
  });
}

describe('transparency by star flux', () => {
  const clear = [80, 70, 60, 50, 40, 35, 30, 28, 26].map((altitude) => starred(altitude));

  it('is the clear sky’s extinction on a clear night', () => {
    const flux = measureTransparency(clear, K);
    for (const frame of clear)
      expect(flux?.transparencies.get(frame.id)).toBeCloseTo(clearTransparency(K, frame.sky?.airmass ?? NaN), 9);
  });

  it('shows a cloud for what it took', () => {
    const cloudy = starred(60, 0.4);
    const flux = measureTransparency([...clear, cloudy], K);
    expect(flux?.transparencies.get(cloudy.id)).toBeCloseTo(0.4 * clearTransparency(K, cloudy.sky?.airmass ?? NaN), 9);
  });

  it('does not mind the length of the exposures', () => {
    const short = starred(60, 1, 60);
    const flux = measureTransparency([...clear, short], K);
    expect(flux?.transparencies.get(short.id)).toBeCloseTo(clearTransparency(K, short.sky?.airmass ?? NaN), 9);
  });

  it('is declined for a handful of frames, or for frames of different gains', () => {
    expect(measureTransparency(clear.slice(0, 4), K)).toMatchObject({
      used: false,
      how: expect.stringContaining('fewer than 5'),
    });
    const other = light({ header: { starFluxAdu: 1e5, gain: 200 } });
    expect(measureTransparency([...clear, other], K)).toMatchObject({
      used: false,
      how: expect.stringContaining('gains'),
    });
  });

  it('is silent when no header carries a flux', () => {
    expect(measureTransparency([light({ header: { starCount: 900 } })], K)).toBeNull();
  });
});
