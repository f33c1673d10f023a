/** The frames of several sessions of one night, without duplicates. */
import {
  CLOCK_TOLERANCE_MS,
  durationMs,
  FrameBook,
  interval,
  withoutCopies,
  type Frame,
  type Timeline,
} from '../model/index.js';
import { frameId, withUniqueIds } from './frames.js';

/** What a session says about when things happened, and its trains, the pilot first. */
export interface SessionTimeline {
  readonly timeline: Timeline;
  readonly trains: readonly string[];
}

/** New ids of frames by their old ids. */
export type FrameIds = ReadonlyMap<string, string>;

/** One frame of the night, and the frames of the sessions that contain it. */
interface Telling {
  readonly frame: Frame;
  readonly by: readonly { readonly session: number; readonly id: string }[];
}

/**
 * Joins frames. If two sessions hold the same one, the first takes precedence, and anything only the other knows (its
 * file, its log entry) is added.
 *
 * @param elsewhere frames that another night counts: they are left out
 * @param name the unified name of a target
 * @returns the frames sorted by start, and per session their new ids; no id for a frame that counts elsewhere
 */
export function joinFrames(
  sessions: readonly SessionTimeline[],
  elsewhere: readonly Frame[],
  name: (target: string) => string,
): { readonly frames: readonly Frame[]; readonly ids: readonly FrameIds[] } {
  const others = new FrameBook();
  others.add(elsewhere);
  const book = new FrameBook();
  const tellings = new Map<Frame, Telling>();
  for (const [session, { timeline }] of sessions.entries()) {
    const fresh: Frame[] = [];
    for (const frame of withoutCopies(timeline.frames)) {
      if (others.find(frame)) continue;
      const known = book.find(frame);
      const telling = known && tellings.get(known);
      const by = { session, id: frame.id };
      if (known && telling) {
        tellings.set(known, { frame: together(telling.frame, frame), by: [...telling.by, by] });
      } else {
        fresh.push(frame);
        tellings.set(frame, { frame, by: [by] });
      }
    }
    book.add(fresh);
  }
  const order = [...new Set(sessions.flatMap((s) => s.trains))];
  const sorted = [...tellings.values()].sort(
    ({ frame: a }, { frame: b }) =>
      a.exposure.startMs - b.exposure.startMs || order.indexOf(a.train) - order.indexOf(b.train),
  );
  return renamed(sorted, sessions.length, name);
}

/** One exposure from two sessions: the first's data, plus a missing file or log entry. */
function together(first: Frame, second: Frame): Frame {
  const file = [first, second].find((f) => f.file !== undefined);
  const log = [first, second].find((f) => f.provenance !== 'file-only');
  return {
    ...first,
    exposure: file && log && file !== log ? exposureOf(file, log) : first.exposure,
    askedMs: first.askedMs ?? second.askedMs,
    target: first.target ?? second.target,
    filter: first.filter ?? second.filter,
    provenance: file ? (log ? 'log-and-file' : 'file-only') : 'log-only',
    file: file?.file,
    header: file?.header,
    savedMs: first.savedMs ?? second.savedMs,
    aborted: first.aborted ?? second.aborted,
    abortWhy: first.abortWhy ?? second.abortWhy,
    sources: file === first && log === first ? first.sources : [...first.sources, ...second.sources],
  };
}

/** The header's length, and its begin if the two clocks agree: as within one session. */
function exposureOf(file: Frame, log: Frame): Frame['exposure'] {
  const agree = Math.abs(file.exposure.startMs - log.exposure.startMs) <= CLOCK_TOLERANCE_MS;
  const { startMs } = agree ? file.exposure : log.exposure;
  return interval(startMs, startMs + durationMs(file.exposure));
}

/** Ids are per session: two may have given the same one to different frames. */
function renamed(
  sorted: readonly Telling[],
  sessions: number,
  name: (target: string) => string,
): { readonly frames: readonly Frame[]; readonly ids: readonly FrameIds[] } {
  const frames = withUniqueIds(
    sorted.map(({ frame }) => ({
      ...frame,
      id: frameId(frame.train, frame.exposure.startMs),
      target: frame.target === undefined ? undefined : name(frame.target),
    })),
  );
  const ids = Array.from({ length: sessions }, () => new Map<string, string>());
  for (const [index, { by }] of sorted.entries()) {
    const frame = frames[index];
    if (frame === undefined) continue;
    for (const { session, id } of by) ids[session]?.set(id, frame.id);
  }
  return { frames, ids };
}
