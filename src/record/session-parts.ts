/** What a session's record holds of its night, whether it stores the parts or only its public keys. */
import { DEFAULT_RULES, type Interval, type JudgedFrame, type Night } from '../model/index.js';
import { goalsOf } from './goals.js';
import { activitiesOfDithers } from './known-dithers.js';
import { restoreParts } from './parts/index.js';
import { nightOfKeys } from './public-keys.js';
import type { SessionRecord } from './schema.js';

/** A session, to be joined with others of its night. */
export interface SessionParts extends Pick<Night, 'date' | 'gathered' | 'timeline' | 'stars'> {
  /** Local noon to local noon, where the record keeps it. */
  readonly span?: Interval;
  /** Existing verdicts, by frame id, if their basis is not in the record; `null` if it is. */
  readonly standing: ReadonlyMap<string, JudgedFrame> | null;
  /** The window in the record, UTC ms, if its sky cannot be computed: a shared record names no site. */
  readonly blindWindow?: Interval;
}

/** Reads a session's parts. Damaged ones count as absent: the public keys are used instead. */
export function partsOfSession(record: SessionRecord): SessionParts {
  const restored = record.stages && restoreParts(record.stages);
  if (restored?.ok) {
    const { date, span, gathered, timeline, stars } = restored.parts;
    return { date, span, gathered, timeline, stars, standing: null };
  }
  const { date, window, knowsSky, gathered, timeline, accounts } = nightOfKeys(record, DEFAULT_RULES);
  return {
    date,
    gathered: {
      ...gathered,
      goals: goalsOf(record),
      warnings: restored
        ? [
            ...gathered.warnings,
            { code: 'damaged-parts', message: `${restored.why}; its verdicts are kept as they are` },
          ]
        : gathered.warnings,
    },
    timeline: { ...timeline, activities: activitiesOfDithers(record) },
    stars: null,
    standing: new Map(accounts.lights.map((light) => [light.id, light])),
    blindWindow: knowsSky ? undefined : window,
  };
}
