/**
 * Several sessions of one night as one record, in which no frame counts twice.
 */
import { groupBy, hull, interval, type Interval } from '../../model/index.js';
import type { FrameRecord, NightRecord, SessionRecord } from '../schema.js';
import { mergedLedger, type LedgerShare } from './ledger.js';
import { FrameBook, withoutCopies } from './same-frame.js';
import { totalsOf } from './totals.js';

export { exposureOf } from './ledger.js';
export { FrameBook } from './same-frame.js';
export { measuredEffectiveMs, sumFrames } from './totals.js';

/** Inferred and logged begins of the same dither lie this near, ms. */
const DITHER_TOLERANCE_MS = 5000;

/** A session and those of its frames that no better session has. */
interface Contribution {
  readonly session: SessionRecord;
  readonly frames: readonly FrameRecord[];
}

/**
 * Merges the sessions of one night at one site. Where two hold the same frame, the one whose logs were read has its
 * say, and of two alike the one added later.
 *
 * @param sessions in the order in which they were added
 * @throws RangeError for no session at all
 */
export function mergeSessions(sessions: readonly SessionRecord[]): NightRecord {
  const [only] = sessions;
  if (only === undefined) throw new RangeError('a night needs at least one session');
  const contributions = contribute(sessions);
  if (sessions.length === 1) {
    const frames = contributions[0]?.frames ?? [];
    return frames.length === only.frames.length ? only : withFrames(only, frames);
  }
  // The parts of one session are not those of the night; each session keeps its own.
  return { ...joined(contributions), stages: undefined, parts: [...sessions] };
}

/** The record with other frames, totals and ledger summed up anew. */
export function withFrames(record: NightRecord, frames: readonly FrameRecord[]): NightRecord {
  const window = windowOf(record);
  return {
    ...record,
    // They would bring the other frames back.
    stages: undefined,
    frames: [...frames],
    totals: totalsOf(frames),
    ledger: record.trains.flatMap(({ id }) => {
      const own = record.frames.filter((f) => f.train === id);
      const left = frames.filter((f) => f.train === id);
      if (left.length === own.length) return record.ledger.filter((row) => row.train === id);
      return mergedLedger(id, window, left, [
        { session: record, share: own.length > 0 ? left.length / own.length : 0 },
      ]);
    }),
  };
}

/** A record's window, UTC ms. */
export function windowOf({ window }: Pick<SessionRecord, 'window'>): Interval {
  const startMs = Date.parse(window.start);
  return interval(startMs, Math.max(startMs, Date.parse(window.end)));
}

/** Each session's own frames, the most trusted session first. */
function contribute(sessions: readonly SessionRecord[]): Contribution[] {
  const order = sessions
    .map((session, index) => ({ session, index }))
    .sort((a, b) => Number(a.session.headersOnly) - Number(b.session.headersOnly) || b.index - a.index);
  const book = new FrameBook();
  return order.map(({ session }) => {
    const frames = withoutCopies(session.frames).filter((frame) => !book.has(frame));
    book.add(frames);
    return { session, frames };
  });
}

function joined(contributions: readonly Contribution[]): SessionRecord {
  const sessions = contributions.map(({ session }) => session);
  const best = sessions[0];
  if (best === undefined) throw new RangeError('a night needs at least one session');
  // What a session says beside its frames counts only where it has frames of its own to say it of.
  const speaking = contributions.flatMap(({ session, frames: own }) =>
    session === best || own.length > 0 ? [session] : [],
  );
  const frames = contributions.flatMap((c) => c.frames).sort((a, b) => Date.parse(a.begin) - Date.parse(b.begin));
  const window = joinedWindow(sessions);
  const imaging = new Set([...best.trains.map((t) => t.id), ...frames.map((f) => f.train)]);
  const trains = distinct(
    sessions.flatMap((s) => s.trains),
    (t) => t.id,
  ).filter((t) => imaging.has(t.id));
  return {
    ...best,
    site: sessions.find((s) => s.site !== null)?.site ?? null,
    sky: sessions.find((s) => s.sky !== null)?.sky ?? null,
    window,
    // Effective seconds of two references are not of one kind.
    referenceSub: sessions.every((s) => s.referenceSub === best.referenceSub) ? best.referenceSub : undefined,
    trains,
    targets: distinct(
      sessions.flatMap((s) => s.targets),
      (t) => t.name.toLowerCase(),
    ),
    headersOnly: sessions.every((s) => s.headersOnly),
    frames,
    totals: totalsOf(frames),
    ledger: trains.flatMap(({ id }) =>
      mergedLedger(
        id,
        windowOf({ window }),
        frames.filter((f) => f.train === id),
        sharesOf(id, contributions),
      ),
    ),
    dithers: joinedDithers(speaking),
    findings: joinedFindings(speaking),
    warnings: [
      ...distinct(
        speaking.flatMap((s) => s.warnings),
        (w) => `${w.code}\n${w.message}\n${w.source ?? ''}`,
      ),
      {
        code: 'several-sessions',
        message:
          `this night stands on ${sessions.length} sessions; frames they share count once, and what ` +
          'the trains did with the shutter closed is summed over them',
        count: sessions.length,
      },
    ],
    ...(best.archive && { archive: joinedArchive(best.archive, sessions) }),
  };
}

function sharesOf(train: string, contributions: readonly Contribution[]): LedgerShare[] {
  return contributions.flatMap(({ session, frames }) => {
    const own = session.frames.filter((f) => f.train === train).length;
    const counted = frames.filter((f) => f.train === train).length;
    return counted === 0 ? [] : [{ session, share: counted / own }];
  });
}

/** Darkness where any session knows it; else all the activity. */
function joinedWindow(sessions: readonly SessionRecord[]): SessionRecord['window'] {
  const dark = sessions.find((s) => s.window.kind !== 'activity');
  if (dark) return dark.window;
  const { startMs, endMs } = hull(sessions.map(windowOf)) ?? interval(0, 0);
  return { start: new Date(startMs).toISOString(), end: new Date(endMs).toISOString(), kind: 'activity' };
}

function joinedDithers(sessions: readonly SessionRecord[]): SessionRecord['dithers'] {
  const all: SessionRecord['dithers'] = [];
  for (const { dithers } of sessions) {
    const known = all.map((d) => Date.parse(d.begin));
    all.push(...dithers.filter((d) => !known.some((ms) => Math.abs(ms - Date.parse(d.begin)) <= DITHER_TOLERANCE_MS)));
  }
  return all.sort((a, b) => Date.parse(a.begin) - Date.parse(b.begin));
}

/** Of each kind the costliest. */
function joinedFindings(sessions: readonly SessionRecord[]): SessionRecord['findings'] {
  return [
    ...groupBy(
      sessions.flatMap((s) => s.findings),
      (f) => f.id,
    ).values(),
  ]
    .flatMap((same) => same.reduce((a, b) => (b.costSeconds > a.costSeconds ? b : a)))
    .sort((a, b) => b.costSeconds - a.costSeconds);
}

function joinedArchive(
  best: NonNullable<SessionRecord['archive']>,
  sessions: readonly SessionRecord[],
): SessionRecord['archive'] {
  const facts = sessions.flatMap((s) => s.archive ?? []);
  return {
    ...best,
    report: facts.find((a) => a.report !== null)?.report ?? null,
    minimumAltitude: facts.find((a) => a.minimumAltitude !== undefined)?.minimumAltitude,
    horizon: facts.find((a) => a.horizon !== undefined)?.horizon,
    goals: distinct(
      facts.flatMap((a) => a.goals),
      (g) => g.name.toLowerCase(),
    ),
  };
}

/** The first of each key, in order. */
function distinct<T>(items: readonly T[], key: (item: T) => string): T[] {
  return [...groupBy(items, key).values()].flatMap((same) => same.slice(0, 1));
}
