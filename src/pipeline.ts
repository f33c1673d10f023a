/**
 * The whole pipeline of a night, on one screen: a list of stages, each of which reads the parts it names and produces
 * one. The sky comes before the accounts, because the window and two of the verdicts depend on it. The session report,
 * the import of headers and the re-judging of a record all use it.
 */
import { resolve } from 'node:path';
import { takeAccount } from './account/index.js';
import { findAll } from './findings/index.js';
import {
  activeInstants,
  eveningOf,
  gatherNight,
  clocksByHand,
  gatherSession,
  onOneClock,
  pilotFirst,
  type GatherOptions,
  type Session,
} from './gather/index.js';
import type { Interval, Night } from './model/index.js';
import { picturesOf } from './pictures.js';
import { compareClocks, reconstruct } from './reconstruct/index.js';
import { replayNight } from './replay/index.js';
import { datesOf, impossibleLight, nightSpan, skyOver, zoneOf } from './sky/index.js';
import { SKY_MODEL } from './sky-model.js';
import { follow, journey, stage } from './stages.js';
import { clocksBySteps, starsOfNight, type ClockBySteps, type NightPixels } from './stars/index.js';
import { assessWorth } from './worth/index.js';

/** The stages in their order. */
export const STAGES = journey(
  stage('gathered', ['session', 'span'], ({ session, span }) => gatherNight(session, span)),
  stage('timeline', ['session', 'span', 'gathered'], ({ session, span, gathered }) =>
    reconstruct({
      night: span,
      trains: gathered.trains.map((t) => t.id),
      ...eveningOf(session, span),
      targets: session.rig.targets,
      filterAliases: session.rig.filterAliases,
      clocks: session.clocks ?? [],
    }),
  ),
  stage('sky', ['span', 'gathered', 'timeline'], ({ span, gathered, timeline }) =>
    skyOver({ span, ...gathered, ...timeline }),
  ),
  stage('stars', ['pixels', 'gathered', 'timeline'], ({ pixels, ...night }) =>
    pixels === null ? null : starsOfNight(night, pixels),
  ),
  stage('accounts', ['gathered', 'timeline', 'sky', 'stars'], ({ gathered, timeline, sky, stars }) =>
    takeAccount({ ...gathered, ...timeline, ...sky, stars }),
  ),
  stage('pictures', ['pixels', 'gathered', 'stars', 'accounts'], ({ pixels, ...night }) => picturesOf(night, pixels)),
  stage('worth', ['gathered', 'timeline', 'sky', 'stars', 'accounts'], (night) => assessWorth(night, SKY_MODEL)),
  stage('replay', ['gathered', 'timeline', 'sky', 'stars', 'accounts', 'worth'], replayNight),
  stage('findings', ['date', 'span', 'gathered', 'timeline', 'sky', 'stars', 'accounts', 'worth', 'replay'], findAll),
);

/** How a session's nights are to be read. */
export interface NightOptions extends GatherOptions {
  /** How pixels are to be measured; they are not read when absent. */
  readonly stars?: Omit<NightPixels, 'root'>;
  /** `null` if not requested; it takes a fifth of the time. */
  readonly replay?: null;
  /** Called after each stage of each night, so that garbage can be collected. */
  readonly onStage?: () => void;
}

/**
 * Reads a session folder and rebuilds its nights, oldest first.
 *
 * @throws ConfigError when the rig file cannot be used; Error when the folder cannot be read
 */
export async function readNights(sessionFolder: string, options: NightOptions): Promise<Night[]> {
  const session = await gatherSession(sessionFolder, options);
  const pixels = options.stars === undefined ? null : { ...options.stars, root: resolve(sessionFolder) };
  const known = { pixels, ...(options.replay === null ? { replay: null } : {}) };
  const nights: Night[] = [];
  for (const date of nightDates(session)) nights.push(await nightFrom(session, date, known, options.onStage));
  return nights;
}

/** Local dates of the evenings on which something was imaged or logged. */
function nightDates(session: Session): string[] {
  return datesOf(activeInstants(session), session.cutZone ?? zoneOf(session.rig.site));
}

/**
 * Takes one night of a session through the stages.
 *
 * @param known parts already known: `{ replay: null }` skips the replay; without `pixels` nothing is measured
 */
export async function nightFrom(
  session: Session,
  date: string,
  known: { readonly replay?: null; readonly pixels?: NightPixels | null } = {},
  onStage?: () => void,
): Promise<Night> {
  const span = nightSpan(date, session.cutZone ?? zoneOf(session.rig.site));
  const through = (bySteps?: ReadonlyMap<string, ClockBySteps>): Promise<Night> =>
    follow(STAGES, { date, span, session: settled(session, span, bySteps), pixels: null, ...known }, onStage);
  const night = await through();
  const bySteps = unsettledClocks(night);
  return bySteps.size === 0 ? night : through(bySteps);
}

/** Clocks determined only once the stars were measured. */
function unsettledClocks({ gathered, timeline, stars }: Night): ReadonlyMap<string, ClockBySteps> {
  const isOpen = timeline.clocks.some(({ isKnown, jump }) => !isKnown && !jump);
  return isOpen && stars ? clocksBySteps({ ...gathered, timeline, stars }) : new Map();
}

/** The session on one clock, as this night determines it: before anything is split or compared. */
function settled(session: Session, span: Interval, bySteps?: ReadonlyMap<string, ClockBySteps>): Session {
  const [pilot, ...others] = pilotFirst(session.rig.trains).map((t) => t.id);
  if (pilot === undefined) return session;
  const { headers, events, lineTimes } = eveningOf(session, span);
  const byHandMs = clocksByHand(session.rig);
  const isImpossible = session.rig.site ? impossibleLight(session.rig.site) : undefined;
  return onOneClock(
    session,
    pilot,
    compareClocks({
      trains: [pilot, ...others],
      headers,
      events,
      lineTimes,
      byHandMs,
      isImpossible,
      bySteps,
      isGuided: session.guiding !== null,
    }),
  );
}

export { RIG_FILES, starterRig } from './gather/index.js';
export { replayWith } from './replay/index.js';
export { defaultCacheFolder } from './stars/index.js';
export { writeReports, type ReportOptions } from './output.js';
