/**
 * Stars that became large from one frame to the next, and stayed so: not temperature drift, but a focuser that moved, a
 * failed refocus, a knock or dew.
 */
import {
  FOCUS_GROWTH,
  counted,
  groupByAll,
  itemAt,
  median,
  sum,
  durationMs,
  duration,
  type JudgedFrame,
  type NightFacts,
} from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { sizedFrames, type SizedFrame } from './star-size.js';
import { exposedMs, exposures } from './trains.js';
import { worseOf } from './worse-focus.js';
import { clock, frameLinks, fromTo } from './wording.js';

/** Number of frames before the jump whose median is the reference. */
const BEFORE = 3;
/** Lights farther apart than this had a pause between them in which anything may have happened, ms. */
const PAUSE_MS = 30 * 60_000;

/** Consecutive frames with large stars. */
interface Spell {
  readonly frames: readonly SizedFrame[];
  /** The last frame before. */
  readonly before: JudgedFrame;
  /** The first frame after; absent if none follows. */
  readonly after?: JudgedFrame;
  /** Growth factor of the stars. */
  readonly ratio: number;
}

export const suddenDefocus: FindingModule<{
  readonly jump: number;
  readonly stay: number;
  readonly minimumFrames: number;
}> = {
  id: 'sudden-defocus',
  title: 'Stars suddenly larger',
  needs: ['sized-stars', 'lights'],
  // Seeing and temperature take longer to make stars half as large again (common practice, no source).
  defaults: { jump: 1.5, stay: 1.3, minimumFrames: 3 },
  find(night, { jump, stay, minimumFrames }) {
    return night.gathered.trains.flatMap(({ id }) =>
      fieldsOf(night, id)
        .flatMap((field) => spellsOf(field, jump, stay))
        .filter(({ frames }) => frames.length >= minimumFrames)
        .filter((spell) => !isByRefocus(id, spell, night))
        .map((spell) => draftOf(id, spell, night)),
    );
  },
};

function draftOf(train: string, { frames, before, after, ratio }: Spell, night: NightFacts): FindingDraft {
  const lights = frames.map(({ frame }) => frame);
  const first = itemAt(lights, 0);
  const span = { startMs: first.exposure.startMs, endMs: itemAt(lights, lights.length - 1).exposure.endMs };
  const failed = refocusBetween(night, train, before.exposure.endMs, first.exposure.startMs);
  const healed = after && refocusBetween(night, train, span.endMs, after.exposure.startMs);
  const at = clock(first.exposure.startMs, night);
  return {
    title:
      `${train}’s stars were ${ratio.toFixed(1)} times as large from ${at} on, ` +
      `in ${counted(lights.length, 'frame')}`,
    costMs: exposedMs(lights),
    frames: lights.length,
    evidence: [
      `${fromTo(span, night)}: ${duration(sum(lights.map(({ exposure }) => durationMs(exposure))))} of exposure; the ` +
        `frame of ${clock(before.exposure.startMs, night)} still had small stars`,
      failed ? `a refocus ended at ${clock(failed, night)}, just before` : 'no refocus is known just before',
      ...(healed ? [`the refocus that ended at ${clock(healed, night)} corrected it`] : []),
    ],
    advice: failed
      ? `Look at ${train}’s refocus of ${clock(failed, night)}: have each refocus checked by a frame after it, and ` +
        'repeated if stars are larger than before.'
      : `Find out what moved on ${train} about ${at}: a focuser that slipped, a knock, dew. Watch the star size of ` +
        'every frame, and refocus at once when it jumps by half.',
    confidence: 'medium',
    links: [{ text: 'Stars', anchor: 'stars' }, ...frameLinks(lights, night, 3)],
    minutes: exposures(lights),
  };
}

/** A train's frames with comparable stars: those of one target through one filter, in order. */
function fieldsOf(night: NightFacts, train: string): SizedFrame[][] {
  const sized = sizedFrames(night, train);
  return groupByAll(sized, ({ frame }) => [frame.target, frame.filter]);
}

function spellsOf(field: readonly SizedFrame[], jump: number, stay: number): Spell[] {
  const spells: Spell[] = [];
  for (let i = BEFORE; i < field.length; i++) {
    const usual = field.slice(i - BEFORE, i);
    const last = itemAt(usual, BEFORE - 1);
    const growth = (s: SizedFrame): number =>
      Math.min(s.size / median(usual.map((u) => u.size)), s.zenith / median(usual.map((u) => u.zenith)));
    const first = itemAt(field, i);
    const pauseMs = first.frame.exposure.startMs - last.frame.exposure.endMs;
    if (growth(first) < jump || growth(last) >= stay || pauseMs > PAUSE_MS) continue;
    const end = field.findIndex((s, k) => k >= i && growth(s) < stay);
    const frames = field.slice(i, end === -1 ? field.length : end);
    const after = end === -1 ? undefined : field[end]?.frame;
    spells.push({ frames, before: last.frame, ratio: median(frames.map(growth)), ...(after ? { after } : {}) });
    // Later frames are compared with frames of their own.
    i += frames.length + BEFORE - 1;
  }
  return spells;
}

/** Whether a refocus made the stars large: a finding of its own. */
function isByRefocus(train: string, { before, frames }: Spell, night: NightFacts): boolean {
  const beganMs = itemAt(frames, 0).frame.exposure.startMs;
  return worseOf(night, train, FOCUS_GROWTH).some(
    ({ run: { span } }) => span.startMs >= before.exposure.endMs - 1000 && span.endMs <= beganMs + 1000,
  );
}

/** When the train's last refocus between two instants ended; `undefined` if there was none. */
function refocusBetween(night: NightFacts, train: string, fromMs: number, toMs: number): number | undefined {
  return night.timeline.activities.findLast(
    (a) => a.kind === 'focus' && a.train === train && a.span.startMs >= fromMs - 1000 && a.span.endMs <= toMs + 1000,
  )?.span.endMs;
}
