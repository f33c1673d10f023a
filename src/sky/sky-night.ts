import { midpointMs } from '../model/index.js';
import type { DarknessKind, Interval, Site, SkyNight } from '../model/index.js';
import { darkStretches, darkWindow } from './darkness.js';
import { observerOf } from './position.js';
import type { SkyObserver } from './position.js';
import { stretchesFromZero } from './stretches.js';

const SAMPLE_STEP_MS = 10 * 60_000;
/** Refraction on the horizon by which rise and set are computed, degrees: 34′. */
const HORIZON_REFRACTION_DEG = 34 / 60;

/** When something rises above its limit and falls below it, first of each in the span; `null` if it does not. */
interface Passages {
  readonly comesMs: number | null;
  readonly goesMs: number | null;
}

/**
 * Sun and Moon of one night at a site, with the window of darkness.
 *
 * Sunset, sunrise, moonrise and moonset: upper limb on a level horizon at sea level through 34′ of refraction, the
 * Moon as seen from the site. Twilights: the Sun's centre, no refraction. A dusk is the first in the span, a dawn the
 * last; moonrise and moonset are the first of each. The site's own horizon and its height play no part in them.
 *
 * @param where the site or an observer of it
 * @param span the night, local noon to local noon
 * @param asked the twilight that bounds darkness
 * @param activity when frames were taken, if known: see {@link darkWindow}
 */
export function skyNight(
  where: Site | SkyObserver,
  span: Interval,
  asked: DarknessKind,
  activity?: Interval,
): SkyNight {
  const observer = observerOf(where);
  const sunset = nightfall(darkStretches(observer, span, 'sunset'), span);
  const window = darkWindow(observer, span, asked, activity);
  const moon = moonPassages(observer, span);
  const middle = observer.at(midpointMs(window.span));
  return {
    sunsetMs: sunset.duskMs,
    sunriseMs: sunset.dawnMs,
    twilight: {
      civil: nightfall(darkStretches(observer, span, 'civil'), span),
      nautical: nightfall(darkStretches(observer, span, 'nautical'), span),
      astronomical: nightfall(darkStretches(observer, span, 'astronomical'), span),
    },
    window,
    moon: {
      illumination: middle.moonPhase.illumination,
      waxing: middle.moonWaxing,
      riseMs: moon.comesMs,
      setMs: moon.goesMs,
    },
  };
}

/** First beginning and last end of darkness that are passages, not ends of the span. */
function nightfall(
  dark: readonly Interval[],
  span: Interval,
): { readonly duskMs: number | null; readonly dawnMs: number | null } {
  const dusk = dark.find(({ startMs }) => startMs > span.startMs);
  const dawn = dark.findLast(({ endMs }) => endMs < span.endMs);
  return { duskMs: dusk?.startMs ?? null, dawnMs: dawn?.endMs ?? null };
}

function moonPassages(observer: SkyObserver, span: Interval): Passages {
  const up = stretchesFromZero(
    (atMs) => {
      const { altitudeDeg, semidiameterDeg } = observer.at(atMs).moon;
      return altitudeDeg + semidiameterDeg + HORIZON_REFRACTION_DEG;
    },
    span,
    SAMPLE_STEP_MS,
  );
  return {
    comesMs: up.find(({ startMs }) => startMs > span.startMs)?.startMs ?? null,
    goesMs: up.find(({ endMs }) => endMs < span.endMs)?.endMs ?? null,
  };
}
