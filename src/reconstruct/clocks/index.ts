/**
 * One clock for the night. Every train's headers and log are compared with the reference (the pilot's log, because
 * mount and guiding are written there; its headers where there is no log) by all that both tell of; what is well
 * determined is brought to the time that most trains agree on, and the rest is said to be unknown.
 */
import {
  counted,
  groupBy,
  isDatedLight,
  midpointMs,
  NO_WITNESS,
  type ClockJump,
  type ClockSource,
  type HeaderFrame,
  type LogEvent,
  type NightClocks,
} from '../../model/index.js';
import { seenInSteps, type ClockOfSteps } from './by-steps.js';
import { cadenceMs, gapPauses, loggedPauses, withReadiness, type MountPause, type Shutter } from './cadence.js';
import { isWellDetermined } from './differences.js';
import { excludedBySky, type LightSky } from './daylight.js';
import { jumpAtTheEdge, jumpInDithers } from './jump.js';
import type { ClockEvidence } from './likelihood.js';
import { byHand, jumpNote, referenceNote, toNote, type Compared } from './notes.js';
import {
  coarseSearch,
  estimateOffset,
  OTHER_SHARE_LIMIT,
  thin,
  type CoarseSearch,
  type OffsetEstimate,
} from './posterior.js';
import { sharedEvents, trainStreams, type TrainStreams } from './streams.js';
import { rightTime, type ComparedClock } from './vote.js';

export { isZoneLike } from './differences.js';

/** What the night's clocks are told from, as it was written. */
export interface ClockInput {
  /** Train ids; the first is the pilot. */
  readonly trains: readonly string[];
  readonly headers: readonly (HeaderFrame & { readonly train: string })[];
  /** Events of logs that belong to no train count with the pilot's. */
  readonly events: readonly LogEvent[];
  /** How far a train's computer is ahead by the rig file (`clockOffset`), ms. */
  readonly byHandMs: ReadonlyMap<string, number>;
  /** What the trains' stars tell of clocks that nothing else does; absent before they are measured. */
  readonly bySteps?: ReadonlyMap<string, ClockOfSteps>;
  /** Whether no light can have been taken of a field at an instant, UTC ms; absent where the site is not known. */
  readonly isImpossible?: LightSky;
}

const KNOWN_AT_ZERO = { aheadMs: 0, uncertaintyMs: 0, isKnown: true };

/** Compares the night's clocks. */
export function compareClocks(input: ClockInput): NightClocks {
  const headers = groupBy(input.headers, (h) => h.train);
  const events = groupBy(input.events, (e) => e.train ?? input.trains[0]);
  const streams = input.trains.map((train) => trainStreams(train, headers.get(train) ?? [], events.get(train) ?? []));
  const pilot = streams[0];
  if (!pilot) return { notes: [], shiftMs: () => 0 };
  const reference = referenceOf(pilot);
  const isByHand = (train: string): boolean => input.byHandMs.has(train);
  const compared = streams
    .filter((own) => !isByHand(own.train))
    .flatMap((own) =>
      own === pilot
        ? ownHeaders(own, KNOWN_AT_ZERO, reference)
        : ofCompanion(own, reference).map((c) => seenInSteps(c, own, input.bySteps)),
    );
  const origin: ComparedClock = {
    train: pilot.train,
    source: reference.source,
    aheadMs: 0,
    uncertaintyMs: 0,
    isVouched: reference.source === 'headers' && pilot.isVouched,
  };
  const handMs = input.byHandMs.get(pilot.train);
  const right =
    handMs === undefined
      ? rightTime(
          [origin, ...compared.filter((c) => c.isKnown && !c.isOfLogAlone)],
          excludedBySky(lightsByReference(headers, origin, compared), input.isImpossible),
        )
      : { aheadMs: -handMs, isAbsolute: true };
  const notes = [
    ...byHand(input.byHandMs, streams),
    ...(handMs === undefined ? referenceNote(origin, right, compared) : []),
    ...jumpNote(pilot.train, pilot.backwards ?? pilot.jump),
    ...compared.map((c) => toNote(c, right)),
  ];
  const shifts = new Map(notes.filter((n) => n.corrected).map((n) => [`${n.train}/${n.source}`, n.aheadMs]));
  return { notes, shiftMs: (train, source) => shifts.get(`${train}/${source}`) ?? 0 };
}

/** Lights by the reference's clock, of the trains whose headers have a known place beside it. */
function lightsByReference(
  headers: ReadonlyMap<string, readonly HeaderFrame[]>,
  origin: ComparedClock,
  compared: readonly Compared[],
): { readonly header: HeaderFrame; readonly atMs: number }[] {
  const known = [origin, ...compared.filter((c) => c.isKnown && !c.isOfLogAlone)].filter((c) => c.source === 'headers');
  return known.flatMap(({ train, aheadMs }) =>
    (headers.get(train) ?? [])
      .filter(isDatedLight)
      .map((header) => ({ header, atMs: midpointMs(header.exposure) - aheadMs })),
  );
}

interface Reference {
  readonly streams: TrainStreams;
  readonly source: ClockSource;
  readonly name: string;
  readonly pauses: readonly MountPause[];
}

function referenceOf(pilot: TrainStreams): Reference {
  const isLogged = pilot.log.length > 0 || pilot.sharedMs.size > 0;
  const source = isLogged ? 'log' : 'headers';
  const shutters = isLogged && pilot.log.length > 0 ? pilot.log : pilot.headers;
  return {
    streams: pilot,
    source,
    name: `the ${source} of ${pilot.train}`,
    pauses:
      pilot.moves.length > 0
        ? loggedPauses(pilot.moves, pilot.settlings)
        : gapPauses([...shutters].sort((a, b) => a.beginMs - b.beginMs)),
  };
}

/** A companion's log, or its headers, against the reference; then its headers against its log. */
function ofCompanion(own: TrainStreams, reference: Reference): Compared[] {
  const hasLog = own.log.length > 0 || own.sharedMs.size > 0;
  const first = compare(own, hasLog ? 'log' : 'headers', hasLog ? own.log : own.headers, reference);
  if (!hasLog) return first ? [first] : [];
  if (own.headers.length === 0) return first ? [first] : [];
  // Headers that share no exposure with the log are compared with the reference on their own.
  if (!own.headersAhead) {
    const headers = compare(own, 'headers', own.headers, reference);
    return [...(first ? [first] : []), ...(headers ? [headers] : [])];
  }
  return [...(first ? [first] : []), ...ownHeaders(own, first, reference)];
}

function compare(
  own: TrainStreams,
  source: ClockSource,
  exposures: readonly Shutter[],
  reference: Reference,
): Compared | null {
  const shutters = withReadiness(exposures, source === 'log' ? own.readyMs : []);
  const shared = source === 'log' && reference.source === 'log' ? sharedEvents(reference.streams, own) : [];
  const evidence = {
    shutters,
    pauses: reference.pauses,
    shared,
    cadenceMs: cadenceMs(shutters),
    favouredMs: favoured(own, source),
  };
  const thinned = thin(evidence);
  const search = coarseSearch(thinned);
  const estimate = estimateOffset(evidence, thinned, search);
  const base = {
    train: own.train,
    source,
    against: reference.name,
    isVouched: source === 'headers' && own.isVouched,
  };
  if (!estimate)
    return exposures.length === 0 && shared.length === 0
      ? null
      : { ...base, aheadMs: 0, uncertaintyMs: 0, isKnown: false, by: NO_WITNESS };
  const by = witnesses(estimate, reference, shared.length > 0);
  const { aheadMs, uncertaintyMs } = estimate;
  const jump = jumpOf(own, source, { evidence: thinned, search, aheadMs }, reference);
  if (jump) return { ...base, aheadMs, uncertaintyMs, isKnown: false, by: `${by}, which no single offset fits`, jump };
  return {
    ...base,
    aheadMs,
    uncertaintyMs,
    isKnown: estimate.otherShare < OTHER_SHARE_LIMIT,
    by,
    second: estimate.secondMs === undefined ? undefined : { aheadMs: estimate.secondMs, share: estimate.otherShare },
  };
}

/** Whether this clock, or the reference, was set while the night ran. */
function jumpOf(
  own: TrainStreams,
  source: ClockSource,
  {
    evidence,
    search,
    aheadMs,
  }: { readonly evidence: ClockEvidence; readonly search: CoarseSearch; readonly aheadMs: number },
  { streams: pilot }: Reference,
): ClockJump | null {
  const turned = pilot.oddLengths.map((o) => ({ ...o, byMs: -o.byMs }));
  const hints = [...own.oddLengths, ...turned];
  const fitted = jumpInDithers(evidence, search, hints);
  const byMs = fitted ? fitted.afterMs - fitted.beforeMs : 0;
  if (source === 'log' && own.backwards)
    // Lines that go back tell the least that it can have been.
    return byMs <= own.backwards.byMs ? { ...own.backwards, byMs } : own.backwards;
  if (source === 'log' && own.jump) return own.jump;
  if (fitted) return { atMs: fitted.atMs, byMs, isOwn: false };
  const edge = jumpAtTheEdge(evidence, aheadMs, [
    ...own.oddLengths.map((o) => ({ ...o, atMs: o.atMs - aheadMs })),
    ...turned,
  ]);
  return edge && { ...edge, isOwn: false };
}

/** Clocks that agree are likely: this one with the reference, or the same train's headers where this is its log. */
function favoured({ headersAhead }: TrainStreams, source: ClockSource): number[] {
  return source === 'log' && headersAhead && isWellDetermined(headersAhead) ? [0, -headersAhead.offsetMs] : [0];
}

function witnesses({ witnesses: n }: OffsetEstimate, { pauses }: Reference, hasShared: boolean): string {
  if (hasShared) return `${n} dithers and events that both wrote down`;
  if (pauses[0]?.by === 'log') return counted(n, 'dither');
  return counted(n, 'gap that looks like a dither', 'gaps that look like dithers');
}

/** A train's headers, by the exposures that its log has too. */
function ownHeaders(
  { train, headersAhead, isVouched }: TrainStreams,
  log: Pick<Compared, 'aheadMs' | 'uncertaintyMs' | 'isKnown'> | null,
  reference: Reference,
): Compared[] {
  if (!headersAhead) return [];
  const known = log?.isKnown ? log : null;
  return [
    {
      train,
      source: 'headers',
      against: known && train !== reference.streams.train ? reference.name : `the log of ${train}`,
      aheadMs: (known?.aheadMs ?? 0) + headersAhead.offsetMs,
      uncertaintyMs: Math.round(Math.hypot(known?.uncertaintyMs ?? 0, headersAhead.uncertaintyMs)),
      isKnown: isWellDetermined(headersAhead),
      by: `${headersAhead.pairs} exposures that its log has too`,
      isOfLogAlone: known === null,
      isVouched,
    },
  ];
}
