import {
  about,
  duration,
  isNeverDark,
  isNarrowband,
  listed,
  percentRange,
  statedFilter,
  sum,
  TWILIGHTS,
  weighedTotals,
  type Night,
  type WeighedTotal,
} from '../../../model/index.js';
import { lossesOf, type Loss } from '../../figures/losses.js';
import type { ViewContext } from './context.js';
import { mainReason } from './front-frames.js';

/** A part of the headline; quantities are set in bolder figures and kept on one line. */
export interface Phrase {
  readonly text: string;
  readonly quantity?: boolean;
}

const MINUTE = 60_000;
/** Shorter losses are not in the headline, unless the night had no longer one. */
const WORTH_TELLING_MS = 5 * MINUTE;
const MOST_LOSSES = 3;
/** From this fraction of the kept time on, moonlight is the night's main news. */
const MUCH_MOONLIGHT = 1 / 3;
/** Light that lost more than this to moonlight is worth less than half. */
const MOST_MOONLIGHT = 1 / 2;
/** Frames not kept are news from this fraction of the exposed time on. */
const MUCH_HARMED = 0.1;
/** More targets than this are counted, not named. */
const MOST_TARGETS = 2;
const COUNT_WORDS = ['no', 'one', 'both', 'three', 'four', 'five', 'six', 'seven', 'eight', 'nine'];

const say = (text: string): Phrase => ({ text });
const quantity = (text: string): Phrase => ({ text, quantity: true });

/** `both trains together`, `all three trains together`, and of one train its name. */
export function together(night: Night): string {
  const { trains } = night.gathered;
  if (trains.length < 2) return trains[0]?.id ?? '';
  const count = COUNT_WORDS[trains.length] ?? String(trains.length);
  return trains.length === 2 ? 'both trains together' : `all ${count} trains together`;
}

function targets(night: Night): string {
  const kept = night.accounts.totals.filter((total) => total.ms.kept > 0);
  const names = [...new Set(kept.map(({ target }) => target))];
  if (names.length > MOST_TARGETS) return ` on ${names.length} targets`;
  return names.length === 0 || names.includes('') ? '' : ` on ${listed(names)}`;
}

function kept({ night, worth }: ViewContext): Phrase[] {
  if (worth.frames.taken === 0)
    return [say('No light was taken in '), quantity(duration(worth.windowMs)), say(` ${windowName(night)}.`)];
  if (worth.integrationMs.kept === 0)
    return [say(`None of the ${worth.frames.taken} frames taken could be kept${noneText(night)}.`)];
  return [
    quantity(duration(worth.integrationMs.kept)),
    say(` kept${targets(night)}, ${together(night)}.`),
    ...moonlight(night, worth.integrationMs.kept),
    ...harmed(night, worth.integrationMs),
  ];
}

/** Frames that were not kept, if they are hours or much of the night. */
function harmed(
  night: Night,
  { taken, kept: keptMs, doubtful }: { taken: number; kept: number; doubtful: number },
): Phrase[] {
  const harmedMs = taken - keptMs;
  if (harmedMs < MUCH_HARMED * taken || harmedMs < WORTH_TELLING_MS) return [];
  // One verdict's hours, as in the table; the line below counts the frames of both.
  const verdict = doubtful > harmedMs / 2 ? 'doubtful' : 'lost';
  const reason = mainReason(night.accounts.lights.filter((light) => light.verdict === verdict));
  return [
    say(' '),
    quantity(about(verdict === 'doubtful' ? doubtful : harmedMs - doubtful)),
    say(` more is ${verdict}${reason === '' ? '' : `: ${reason}`}.`),
  ];
}

/**
 * The part lost to moonlight by the model, if large; narrow bands are the usual choice under a Moon. And its value, for
 * any filter, if moonlight took most.
 */
function moonlight(night: Night, keptMs: number): Phrase[] {
  const all = weighedTotals(night);
  const broadband = all.filter(
    ({ filter, train }) => !isNarrowband(statedFilter(filter, train, night.gathered.cameras)),
  );
  const takenMs = sum(broadband.map(({ worth }) => worth.moonShutterMs));
  const moonlit = all.filter(({ ms, worth }) => worth.moonShutterMs > MOST_MOONLIGHT * ms.kept);
  const isMost = sum(moonlit.map(({ ms }) => ms.kept)) > keptMs / 2;
  return [
    ...(takenMs < MUCH_MOONLIGHT * keptMs
      ? []
      : [say(' By the model, moonlight cost '), quantity(duration(takenMs)), say(' of it.')]),
    ...(isMost ? worthText(moonlit, keptMs) : []),
  ];
}

/** `The 8.3 h under the Moon are worth 4–26 % of the same hours under a dark sky.` */
function worthText(moonlit: readonly WeighedTotal[], keptMs: number): Phrase[] {
  const shares = (of: 'lowMs' | 'highMs'): number[] => moonlit.map(({ ms, worth }) => worth[of] / ms.kept);
  const moonlitMs = sum(moonlit.map(({ ms }) => ms.kept));
  return [
    say(moonlitMs < keptMs ? ` What was kept under the Moon, ${duration(moonlitMs)}, is worth ` : ' It is worth '),
    quantity(percentRange(Math.min(...shares('lowMs')), Math.max(...shares('highMs')))),
    say(' of the same hours under a dark moonless sky, by the model.'),
  ];
}

/** Why: because it never became dark enough for any of them, else the main cause. */
function noneText(night: Night): string {
  const reason = mainReason(night.accounts.lights);
  return neverDarkText(night) || (reason === '' ? '' : `: ${reason}`);
}

/** Why, if it never became dark enough for any of them; else empty. */
function neverDarkText({ sky, accounts }: Night): string {
  const window = sky.almanac?.window;
  if (window === undefined || window.kind === window.asked || !isNeverDark({ sky, accounts })) return '';
  const degrees = (deg: number, decimals: number): string => `${deg.toFixed(decimals).replace('-', '−')}°`;
  return (
    `: the Sun never went below ${degrees(TWILIGHTS[window.asked].sunAltitudeDeg, 0)}, ` +
    `and its lowest was ${degrees(window.sunMinimumDeg, 1)}`
  );
}

function windowName({ sky }: Night): string {
  if (sky.almanac === null) return 'of activity';
  const { kind } = sky.almanac.window;
  if (kind === 'sun-minimum') return 'about the Sun’s lowest point';
  return kind === 'sunset' ? 'from sunset to sunrise' : 'of darkness';
}

function whose({ trains }: Loss, night: Night): string {
  const all = night.gathered.trains.length;
  if (trains.length === 0 || all < 2) return '';
  return trains.length < all ? ` (${listed(trains)})` : all === 2 ? ' (both trains)' : ' (all trains)';
}

/** What time was lost to while shutters were closed; lost frames are listed separately. */
/** `(32 min at dithers)`, if that differs from the total as displayed. */
function partText({ ms, part }: Loss): string {
  return part === undefined || part.ms === 0 || about(part.ms) === about(ms)
    ? ''
    : ` (${about(part.ms)} ${part.label})`;
}

function lost({ night, worth }: ViewContext): Phrase[] {
  const all = lossesOf(night);
  // If nothing was kept, minutes with the shutter closed are irrelevant.
  const leastMs = worth.integrationMs.kept > 0 ? WORTH_TELLING_MS : Math.max(WORTH_TELLING_MS, worth.windowMs / 10);
  const long = all.filter(({ ms }) => ms >= leastMs);
  const named = (
    long.length > 0 || worth.integrationMs.kept === 0 ? long : all.filter(({ ms }) => ms >= MINUTE).slice(0, 1)
  ).slice(0, MOST_LOSSES);
  if (named.length === 0) return [];
  const harmedFrames = harmed(night, worth.integrationMs);
  // Kept time is summed over the trains, and so is the gain of advice; this is not.
  const isClockTime = night.gathered.trains.length > 1;
  const what = harmedFrames.length > 0 ? 'with shutters closed' : 'lost';
  const lead = isClockTime ? `Clock time ${what}` : `Time ${what}`;
  return named.flatMap((loss, index) => [
    say(index > 0 ? ', ' : ` ${lead}: `),
    quantity(about(loss.ms)),
    say(` ${loss.label}${partText(loss)}${whose(loss, night)}${index === named.length - 1 ? '.' : ''}`),
  ]);
}

/**
 * The night in two sentences: what was kept, explicitly summed over the trains, and what was lost, in clock hours and
 * each of them once.
 */
export function headline(context: ViewContext): Phrase[] {
  const neverDark =
    context.night.sky.almanac?.window.kind === 'sun-minimum' ? [say('No darkness on this night. ')] : [];
  return [...neverDark, ...kept(context), ...lost(context)];
}

/** The headline as plain text. */
export function headlineText(context: ViewContext): string {
  return headline(context)
    .map((phrase) => phrase.text)
    .join('');
}
