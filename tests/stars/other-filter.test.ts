import { describe, expect, it } from 'vitest';
import type { Star } from '../../src/model/index.js';
import { relativeFlux } from '../../src/stars/index.js';
import { type GroupedFrame, takenThroughOther } from '../../src/stars/other-filter.js';

const MINUTES = 60_000;

/** A frame of 40 stars through a filter that passes a share of their light, under a sky that lets a part through. */
function frame(minute: number, passes: number, through: number, backgroundAdu: number) {
  const stars = Array.from(
    { length: 40 },
    (_, i): Star => ({
      x: 20 + 37 * i,
      y: 30 + ((53 * i) % 300),
      flux: 200_000 * 0.85 ** i * passes * through * (1 + 0.02 * Math.sin(minute * 7 + i)),
      snr: 50,
      fwhm: 3,
      elongation: 1,
      direction: 0,
      halfFlux: 1.5,
      saturated: false,
    }),
  ).filter(({ flux }) => flux > 300);
  return {
    startMs: minute * MINUTES,
    frame: { list: { width: 1600, height: 400, stars }, shift: null },
    backgroundAdu: backgroundAdu * (1 + 0.004 * Math.sin(minute)),
  };
}

function group(frames: readonly ReturnType<typeof frame>[]): GroupedFrame[] {
  const ratios = relativeFlux(frames.map((one) => one.frame));
  return frames.map((one, i) => ({ ...one, ratio: ratios[i]?.ratio ?? null }));
}

const every10 = (from: number, count: number) => Array.from({ length: count }, (_, i) => from + 10 * i);
/** A narrow band passes a fourteenth of the starlight and of the sky; 300 ADU are the camera's own. */
const narrow = (from: number, count: number) => every10(from, count).map((m) => frame(m, 1 / 14, 1, 350));
const broad = (from: number, count: number, through = () => 1) =>
  every10(from, count).map((m) => frame(m, 1, through(), 1000));

describe('frames through another filter than they name', () => {
  const luminance = group(broad(200, 6));

  it('are those with its starlight and sky, cloudy ones and all', () => {
    const named = [...narrow(0, 10), ...broad(300, 10), frame(400, 1, 0.05, 1150), frame(410, 1, 0.5, 1100)];
    const isOther = takenThroughOther(group(named), luminance);
    expect(isOther).toEqual(named.map(({ startMs }) => startMs >= 300 * MINUTES));
  });

  it('are none where a filter’s own frames were dimmed', () => {
    // Cloud: the light comes and goes, and the sky behind is no darker.
    const cloud = [0.25, 0.12, 0.07, 0.05, 0.16, 0.28, 0.21];
    const clouded = [...broad(300, 8), ...cloud.map((t, i) => frame(400 + 10 * i, 1, t, 1050))];
    expect(takenThroughOther(group(clouded), luminance)).toBeNull();
    // The same under a dark sky, where a cloud is darker than what lies behind it.
    const dark = [...broad(300, 8), ...cloud.map((t, i) => frame(400 + 10 * i, 1, t, 800 + 100 * t))];
    expect(takenThroughOther(group(dark), luminance)).toBeNull();
  });

  it('are none where no other filter has such light, nor where the wheel would have turned from frame to frame', () => {
    const named = [...narrow(0, 10), ...broad(300, 10)];
    expect(takenThroughOther(group(named), group(every10(200, 6).map((m) => frame(m, 0.3, 1, 500))))).toBeNull();
    expect(takenThroughOther(group(named), group(broad(200, 2)))).toBeNull();
    const inTurn = every10(0, 16).map((m, i) => (i % 2 === 0 ? frame(m, 1 / 14, 1, 350) : frame(m, 1, 1, 1000)));
    expect(takenThroughOther(group(inTurn), luminance)).toBeNull();
    expect(takenThroughOther(group(narrow(0, 16)), luminance)).toBeNull();
  });
});
