/**
 * One clock for the night. Every train's headers and log are compared with the reference (the pilot's log, because
 * mount and guiding are written there; its headers if there is no log) using everything that both report;
 * well-determined clocks are converted to the time that most trains agree on, and the rest are reported as unknown.
 */
import {
  groupBy,
  isCameraMoved,
  isDatedLight,
  midpointMs,
  NO_STEPS,
  type CameraLight,
  type HeaderFrame,
  type NightClocks,
} from '../../model/index.js';
import { seenInSteps } from './by-steps.js';
import { compare, referenceOf, type Reference } from './compare.js';
import { isWellDetermined } from './differences.js';
import { excludedBySky } from './daylight.js';
import { driftedMs } from './drift.js';
import type { ClockInput } from './input.js';
import { byHand, jumpNote, referenceNote, toNote, withSteps, type Compared } from './notes.js';
import { linesWithout, stepMs, unstepped } from './stepped.js';
import { trainStreams, type TrainStreams } from './streams.js';
import { rightTime, type ComparedClock } from './vote.js';

export { isZoneLike } from './differences.js';

const KNOWN_AT_ZERO = { aheadMs: 0, uncertaintyMs: 0, isKnown: true };

/** Compares the night's clocks; steps of an hour that frames or other trains prove are taken out first. */
export function compareClocks(input: ClockInput): NightClocks {
  const { clocks, steps } = unstepped(input, compareSteady);
  if (steps.length === 0) return clocks;
  return {
    ...clocks,
    notes: withSteps(clocks.notes, steps),
    steps: {
      writtenMs: (train, written) => stepMs(steps, train, written),
      lines: (train, own) =>
        steps.reduce((lines, step) => (step.train === train ? linesWithout(lines, step) : lines), own),
      ofComputer: (train) => steps.find((step) => step.train === train && step.sources.length > 1) ?? null,
    },
  };
}

/** Compares clocks none of which was set in the night. */
function compareSteady(input: ClockInput): NightClocks {
  const headers = groupBy(input.headers, (h) => h.train);
  const events = groupBy(input.events, (e) => e.train ?? input.trains[0]);
  const lineTimes = groupBy(input.lineTimes, (own) => own.train ?? input.trains[0]);
  const streams = input.trains.map((train) =>
    trainStreams(train, headers.get(train) ?? [], events.get(train) ?? [], lineTimes.get(train) ?? []),
  );
  const pilot = streams[0];
  if (!pilot) return { notes: [], shiftMs: () => 0, steps: NO_STEPS };
  const reference = referenceOf(pilot);
  const isByHand = (train: string): boolean => input.byHandMs.has(train);
  const compared = streams
    .filter((own) => !isByHand(own.train))
    // One camera on two telescopes in turn has one clock, and nothing that both did.
    .filter((own) => !(isOfHeaders(own) && isOfHeaders(pilot) && takeTurns(headers, pilot.train, own.train)))
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
  const corrected = new Map(notes.filter((n) => n.corrected).map((n) => [`${n.train}/${n.source}`, n]));
  return {
    notes,
    steps: NO_STEPS,
    shiftMs: (train, source, atMs) => {
      const note = corrected.get(`${train}/${source}`);
      return note ? note.aheadMs + (note.drift ? driftedMs(note.drift, atMs) : 0) : 0;
    },
  };
}

const isOfHeaders = ({ log, sharedMs }: TrainStreams): boolean => log.length === 0 && sharedMs.size === 0;

function takeTurns(headers: ReadonlyMap<string, readonly HeaderFrame[]>, one: string, other: string): boolean {
  const [a, b] = [one, other].map((train) =>
    (headers.get(train) ?? [])
      .filter(isDatedLight)
      .map((header): CameraLight => ({ exposure: header.exposure, header })),
  );
  return a !== undefined && b !== undefined && one !== other && (isCameraMoved(a, b) || isCameraMoved(b, a));
}

/** Lights on the reference's clock, of the trains whose headers have a known offset. */
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

/** A companion's log, or its headers, relative to the reference; then its headers relative to its log. */
function ofCompanion(own: TrainStreams, reference: Reference): Compared[] {
  const hasLog = own.log.length > 0 || own.sharedMs.size > 0;
  const first = compare(own, hasLog ? 'log' : 'headers', hasLog ? own.log : own.headers, reference);
  if (!hasLog) return first ? [first] : [];
  if (own.headers.length === 0) return first ? [first] : [];
  // Headers that share no exposure with the log are compared with the reference separately.
  if (!own.headersAhead) {
    const headers = compare(own, 'headers', own.headers, reference);
    return [...(first ? [first] : []), ...(headers ? [headers] : [])];
  }
  return [...(first ? [first] : []), ...ownHeaders(own, first, reference)];
}

/** A train's headers, by the exposures that are also in its log. */
function ownHeaders(
  { train, headersAhead, isVouched }: TrainStreams,
  log: Pick<Compared, 'aheadMs' | 'uncertaintyMs' | 'isKnown' | 'drift'> | null,
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
      by: `${headersAhead.pairs} exposures also in its log`,
      isOfLogAlone: known === null,
      ...(known?.drift ? { drift: known.drift } : {}),
      isVouched,
    },
  ];
}
