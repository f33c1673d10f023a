import {
  cameraTurns,
  counted,
  decimal,
  duration,
  listed,
  nightTitle,
  percent,
  SUNSET_ALTITUDE_DEG,
  TWILIGHTS,
  UNKNOWN,
  warningsOf,
  WINDOWS,
  type Clock,
  type Interval,
  type Night,
  type Train,
} from '../../../model/index.js';
import { greatest } from '../../figures/greatest.js';
import { clockNotices, leewayNotices } from './clock-notices.js';
import type { ViewContext } from './context.js';
import { frontFrames, type FrontFrames } from './front-frames.js';
import { headline, type Phrase } from './headline.js';
import { inputNotices } from './input-notices.js';
import { dithersInStars } from './round-stars.js';

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

/** The first screen except its timeline. */
export interface FrontView {
  readonly title: string;
  readonly place: string;
  readonly trains: string;
  readonly almanac: readonly AlmanacEntry[];
  readonly headline: readonly Phrase[];
  readonly figures: readonly Figure[];
  readonly notices: readonly string[];
  readonly frames: FrontFrames | null;
}

/** `40.42° N`; whole degrees if the value is whole, as in a shared report. */
function coordinate(value: number, positive: string, negative: string): string {
  return `${decimal(Math.abs(value), Number.isInteger(value) ? 0 : 2)}° ${value < 0 ? negative : positive}`;
}

/** The zone with its offset from UTC, or with both if the clocks change in the night. */
function zoneText(clock: Clock, { startMs, endMs }: Interval): string {
  const [before, after] = [clock.offset(startMs), clock.offset(endMs)];
  if (clock.zone === before) return `times in ${before}`;
  return `times in ${clock.zone} (${before === after ? before : `${before}, then ${after}`})`;
}

/** The clock in which times are given. */
function timesText({ night, clock, isShared }: ViewContext): string {
  return isShared ? 'times since the first exposure' : zoneText(clock, night.sky.window);
}

function place(context: ViewContext): string {
  const { night } = context;
  const {
    gathered: { site },
  } = night;
  if (site === null) return `site not known, ${context.isShared ? timesText(context) : 'times in UTC'}`;
  const parts = [
    ...(site.name === '' ? [] : [site.name]),
    coordinate(site.latitudeDeg, 'N', 'S'),
    coordinate(site.longitudeDeg, 'E', 'W'),
    site.elevationM === undefined ? 'elevation not stated, sea level assumed' : `${decimal(site.elevationM, 0)} m`,
    timesText(context),
  ];
  return parts.join(', ');
}

interface Naming {
  readonly isAlone: boolean;
  /** Whether roles were derived from headers. */
  readonly isInferred: boolean;
}

/**
 * `heron (pilot, 480 mm f/6.0, 1.62″ per pixel)`, with what is known about it; a single train is nobody's pilot, and
 * without a rig file the pilot is unknown.
 */
function trainText(
  { id, role, focalLengthMm, apertureMm, pixelScaleArcsec }: Train,
  { isAlone, isInferred }: Naming,
): string {
  const ratio =
    focalLengthMm === undefined || apertureMm === undefined || apertureMm === 0
      ? ''
      : ` f/${decimal(focalLengthMm / apertureMm, 1)}`;
  const parts = [
    ...(isAlone ? [] : [isInferred && role === 'pilot' ? 'taken for the pilot' : role]),
    ...(focalLengthMm === undefined ? [] : [`${decimal(focalLengthMm, 0)} mm${ratio}`]),
    ...(pixelScaleArcsec === undefined ? [] : [`${decimal(pixelScaleArcsec, 2)}″ per pixel`]),
  ];
  return parts.length === 0 ? id : `${id} (${parts.join(', ')})`;
}

function almanac({ night, clock, utc, showsUtc }: ViewContext): AlmanacEntry[] {
  const {
    sky: { almanac: sky },
  } = night;
  if (sky === null) return [];
  const entry = (label: string, atMs: number | null, none: string): AlmanacEntry =>
    atMs === null
      ? { label, value: UNKNOWN, note: none }
      : { label, value: clock.time(atMs), note: showsUtc ? `${utc.time(atMs)} UTC` : '' };
  const { window, moon } = sky;
  const asked = sky.twilight[window.asked];
  // Without a sunset the Sun is up all day, or never.
  const always = window.sunMinimumDeg > SUNSET_ALTITUDE_DEG ? 'the Sun stays up' : 'the Sun stays down';
  return [
    entry('Sunset', sky.sunsetMs, always),
    entry(TWILIGHTS[window.asked].dusk, asked.duskMs, 'does not come'),
    entry(TWILIGHTS[window.asked].dawn, asked.dawnMs, 'does not come'),
    entry('Sunrise', sky.sunriseMs, always),
    { label: 'Sun’s lowest', value: `${decimal(window.sunMinimumDeg, 1)}°`, note: clock.time(window.sunMinimumMs) },
    { label: 'Moon', value: percent(moon.illumination), note: moon.waxing ? 'waxing' : 'waning' },
    entry('Moonrise', moon.riseMs, 'not this night'),
    entry('Moonset', moon.setMs, 'not this night'),
  ];
}

/** The gain of the second train; for a single train, how much of the window was kept. */
function gain({ night, worth }: ViewContext): Figure {
  const trains = night.gathered.trains.length;
  if (trains < 2) {
    const keptMs = night.accounts.ledgers[0]?.totalsMs.kept;
    return {
      label: 'Kept of the window',
      value: percent(worth.windowMs === 0 || keptMs === undefined ? null : keptMs / worth.windowMs),
      note: `of ${duration(worth.windowMs)}`,
    };
  }
  const [turn] = cameraTurns(night.timeline.frames);
  if (trains === 2 && turn)
    return { label: 'Twin gain', value: UNKNOWN, note: `one camera, on ${turn.from} and then on ${turn.to}` };
  const label = trains === 2 ? 'Twin gain' : `Gain of ${trains} trains`;
  if (worth.twinGain === null) return { label, value: UNKNOWN, note: 'nothing was kept' };
  const best = greatest(worth.trains, (train) => train.integrationMs.kept);
  return {
    label,
    value: `${decimal(worth.twinGain, 2)} ×`,
    note: best ? `of what ${best.train} alone kept; ideal: ${trains}` : `ideal: ${trains}`,
  };
}

function figuresOf(context: ViewContext): Figure[] {
  const { frames, integrationMs, openShare, windowMs } = context.worth;
  const each = context.night.gathered.trains.length > 1 ? ' on each train' : '';
  return [
    gain(context),
    { label: 'Kept', value: duration(integrationMs.kept), note: `${counted(frames.kept, 'frame')} of ${frames.taken}` },
    {
      label: 'Lost or doubtful',
      value: duration(integrationMs.doubtful + integrationMs.lost),
      note: `${frames.lost} lost, ${frames.doubtful} doubtful`,
    },
    {
      label: 'Shutter open',
      value: percent(openShare),
      note: openShare === null ? 'no window' : `of ${duration(windowMs)}${each}`,
    },
  ];
}

function notices({ night, clock, isShared }: ViewContext): string[] {
  const out: string[] = [];
  if (night.timeline.headersOnly)
    out.push(
      `No event log was ${warningsOf(night).some(({ code }) => code === 'logs-unread') ? 'read' : 'found'}: what ` +
        'happened between exposures is inferred from the gaps, without reasons.',
    );
  if (night.gathered.site === null)
    out.push(
      'The site is not known: there is no darkness, no Moon and no altitude in this report, and the window is the ' +
        'span of the activity.',
    );
  out.push(
    ...clockNotices(night.timeline.clocks, clock, (train) => dithersInStars(night, train)),
    ...leewayNotices(night.accounts.lights),
    ...(isShared ? [] : inputNotices(night)),
  );
  if (night.sky.almanac?.window.note !== undefined) out.push(night.sky.almanac.window.note);
  return out;
}

/** The first screen: the result of the night. */
export function frontView(context: ViewContext): FrontView {
  const { night } = context;
  const isInferred = warningsOf(night).some(({ code }) => code === 'no-rig-file');
  return {
    title: `Night of ${nightTitle(night.date)}`,
    place: place(context),
    trains: listed(
      night.gathered.trains.map((train, _i, all) => trainText(train, { isAlone: all.length === 1, isInferred })),
    ),
    almanac: almanac(context),
    headline: headline(context),
    figures: figuresOf(context),
    notices: notices(context),
    frames: frontFrames(night),
  };
}

/** Label of the window's kind. */
export function windowKind(night: Night): string {
  return night.sky.almanac === null ? 'span of the activity' : WINDOWS[night.sky.almanac.window.kind];
}
