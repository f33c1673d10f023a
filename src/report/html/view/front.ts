import { durationMs, type Night } from '../../../model/index.js';
import { duration } from '../../text/duration.js';
import { nightTitle } from '../../text/clock.js';
import { counted, decimal, listed, percent, UNKNOWN } from '../../text/number.js';
import type { ViewContext } from './context.js';
import { headline, type Phrase } from './headline.js';

/** One of the large figures of the first screen. */
export interface Figure {
  readonly label: string;
  readonly value: string;
  readonly note: string;
}

/** A column of the almanac line: an instant of the sky, in local time and UTC. */
export interface AlmanacEntry {
  readonly label: string;
  readonly value: string;
  readonly note: string;
}

/** The first screen but its timeline. */
export interface FrontView {
  readonly title: string;
  readonly place: string;
  readonly trains: string;
  readonly almanac: readonly AlmanacEntry[];
  readonly headline: readonly Phrase[];
  readonly figures: readonly Figure[];
  readonly notices: readonly string[];
}

const KIND_LABELS = { civil: 'civil', nautical: 'nautical', astronomical: 'astronomical', sunset: 'sunset to sunrise', 'sun-minimum': 'Sun’s lowest' } as const;

function place(night: Night, context: ViewContext): string {
  if (night.site === null) return 'site not known, times in UTC';
  const { name, latitudeDeg, longitudeDeg, elevationM } = night.site;
  const degrees = (value: number, positive: string, negative: string): string => `${decimal(Math.abs(value), Number.isInteger(value) ? 0 : 2)}° ${value < 0 ? negative : positive}`;
  const where = `${degrees(latitudeDeg, 'N', 'S')}, ${degrees(longitudeDeg, 'E', 'W')}`;
  const height = Number.isFinite(elevationM) && elevationM !== 0 ? `, ${decimal(elevationM, 0)} m` : '';
  return `${name === '' ? '' : `${name}, `}${where}${height}, times in ${context.clock.zone} (${context.clock.offset(night.window.startMs)})`;
}

function trainsText(night: Night): string {
  return listed(night.trains.map(({ id, role, focalLengthMm, apertureMm, pixelScaleArcsec }) => {
    const optics = [
      focalLengthMm === undefined ? undefined : `${decimal(focalLengthMm, 0)} mm${apertureMm === undefined || apertureMm === 0 ? '' : ` f/${decimal(focalLengthMm / apertureMm, 1)}`}`,
      pixelScaleArcsec === undefined ? undefined : `${decimal(pixelScaleArcsec, 2)}″ a pixel`,
    ].filter((one) => one !== undefined);
    return `${id} (${[role, ...optics].join(', ')})`;
  }));
}

/** Altitude of the Sun’s centre at sunset: refraction and its radius below the horizon. */
const SUNSET_DEG = -0.833;

function almanac(context: ViewContext): AlmanacEntry[] {
  const { night, clock, utc } = context;
  const { sky } = night;
  if (sky === null) return [];
  const entry = (label: string, atMs: number | null, none: string): AlmanacEntry => (atMs === null ? { label, value: UNKNOWN, note: none } : { label, value: clock.time(atMs), note: `${utc.time(atMs)} UTC` });
  const { window, moon } = sky;
  const asked = sky.twilight[window.asked];
  // Without a sunset the Sun is up all day, or never.
  const always = window.sunMinimumDeg > SUNSET_DEG ? 'the Sun stays up' : 'the Sun stays down';
  return [
    entry('Sunset', sky.sunsetMs, always),
    entry(`${window.asked === 'civil' ? 'Civil' : window.asked === 'nautical' ? 'Nautical' : 'Astronomical'} dusk`, asked.duskMs, 'does not come'),
    entry('Dawn', asked.dawnMs, 'does not come'),
    entry('Sunrise', sky.sunriseMs, always),
    { label: 'Sun’s lowest', value: `${decimal(window.sunMinimumDeg, 1)}°`, note: clock.time(window.sunMinimumMs) },
    { label: 'Moon', value: percent(moon.illumination), note: moon.waxing ? 'waxing' : 'waning' },
    entry('Moonrise', moon.riseMs, 'not this night'),
    entry('Moonset', moon.setMs, 'not this night'),
  ];
}

function figuresOf({ night, worth }: ViewContext): Figure[] {
  const trains = night.trains.length;
  const best = Math.max(0, ...worth.trains.map((train) => train.integrationMs.kept));
  const leader = worth.trains.find((train) => train.integrationMs.kept === best)?.train ?? '';
  const windowMs = durationMs(night.window);
  const gain: Figure = trains < 2
    ? { label: 'Kept of the window', value: percent(windowMs === 0 ? null : (night.ledgers[0]?.totalsMs.kept ?? 0) / windowMs), note: `of ${duration(windowMs)}` }
    : { label: trains === 2 ? 'Twin gain' : `Gain of ${trains} trains`, value: worth.twinGain === null ? UNKNOWN : `${decimal(worth.twinGain, 2)} ×`, note: worth.twinGain === null ? 'nothing was kept' : `${leader} alone: 1; ideal: ${trains}` };
  const keptFrames = `${counted(worth.frames.kept, 'frame')} of ${worth.frames.taken}`;
  const harmedMs = worth.integrationMs.doubtful + worth.integrationMs.lost;
  return [
    gain,
    { label: 'Kept', value: duration(worth.integrationMs.kept), note: keptFrames },
    { label: 'Lost or doubtful', value: duration(harmedMs), note: `${worth.frames.lost} lost, ${worth.frames.doubtful} doubtful` },
    { label: 'Shutter open', value: percent(worth.openShare), note: worth.openShare === null ? 'no window' : `of ${duration(windowMs)}${trains > 1 ? ' on each train' : ''}` },
  ];
}

function notices(night: Night): string[] {
  const out: string[] = [];
  if (night.headersOnly) out.push('No event log was found: what happened between exposures is inferred from the gaps, and nothing says why.');
  if (night.site === null) out.push('The site is not known: there is no darkness, no Moon and no altitude in this report, and the window is the span of the activity.');
  if (night.sky?.window.note !== undefined) out.push(night.sky.window.note);
  return out;
}

/** The first screen: what the night was worth. */
export function frontView(context: ViewContext): FrontView {
  const { night } = context;
  return {
    title: `Night of ${nightTitle(night.date)}`, place: place(night, context), trains: trainsText(night),
    almanac: almanac(context), headline: headline(context), figures: figuresOf(context), notices: notices(night),
  };
}

/** Label of the window's kind. */
export function windowKind(night: Night): string {
  return night.sky === null ? 'span of the activity' : KIND_LABELS[night.sky.window.kind];
}
