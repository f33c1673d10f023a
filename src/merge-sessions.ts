/**
 * Joins several sessions of one night: what they gathered and saw is combined, and the night goes through the stages
 * like any other. No frame counts twice; totals, accounts and verdicts are computed as for every report.
 */
import { takeAccount } from './account/index.js';
import { joinGathered } from './gather/index.js';
import {
  hull,
  interval,
  type Accounts,
  type JudgedFrame,
  type Night,
  type NightSky,
  type Warning,
} from './model/index.js';
import { STAGES } from './pipeline.js';
import { joinTimelines } from './reconstruct/index.js';
import {
  forArchive,
  framesOfKeys,
  partsOfSession,
  type MergeSessions,
  type SessionParts,
  type SessionRecord,
} from './record/index.js';
import { nightSpan, skyOver, zoneOf } from './sky/index.js';
import { joinStars } from './stars/index.js';
import { follow, type Parts } from './stages.js';

type How = NonNullable<Parameters<MergeSessions>[1]>;

/**
 * Merges the sessions of one night at one site into a record that keeps them as its parts. If two hold the same frame,
 * the one with logs takes precedence, and of equals the one added later.
 *
 * @param sessions in the order in which they were added
 * @throws RangeError for no session at all
 */
export const mergeSessions: MergeSessions = async (sessions, how = {}) => {
  const order = trusted(sessions);
  const [best] = order;
  if (best === undefined) throw new RangeError('a night needs at least one session');
  if (order.length === 1 && (how.elsewhere ?? []).length === 0 && !hasCopies(best)) return best;
  const reports = order.flatMap(({ archive }) => archive?.report ?? []);
  const facts = { session: best.archive?.session ?? '', report: reports[0] ?? null };
  const { archive, ...record } = forArchive(await nightOfSessions(sessions, how), facts, best.generator.version);
  return {
    ...record,
    // The night is recomputed from its sessions; they need not be in the file twice.
    stages: sessions.length > 1 ? undefined : record.stages,
    ...(best.archive && { archive }),
    parts: sessions.length > 1 ? [...sessions] : undefined,
  };
};

/**
 * The combined night of sessions of one night at one site.
 *
 * @param sessions in the order in which they were added
 * @throws RangeError for no session at all
 */
export async function nightOfSessions(sessions: readonly SessionRecord[], how: How = {}): Promise<Night> {
  const replay = how.briefly === true || sessions.every((s) => s.replay === undefined) ? null : undefined;
  const findings = how.briefly === true ? { ranked: [], notAssessed: [] } : undefined;
  return follow(STAGES, { ...joined(trusted(sessions).map(partsOfSession), how), replay, findings });
}

/** Whether one file occurs twice in it, as in the records of other programs. */
function hasCopies({ frames }: SessionRecord): boolean {
  const keys = frames.flatMap(({ train, identity }) =>
    identity === undefined ? [] : [JSON.stringify([train, identity])],
  );
  return new Set(keys).size < keys.length;
}

/** The most trusted first: logs contain more than headers, and later additions were made by a newer program. */
function trusted(sessions: readonly SessionRecord[]): readonly SessionRecord[] {
  return sessions
    .map((session, index) => ({ session, index }))
    .sort((a, b) => Number(a.session.headersOnly) - Number(b.session.headersOnly) || b.index - a.index)
    .map(({ session }) => session);
}

/** The stages' input from sessions, the most trusted first. */
function joined(sessions: readonly SessionParts[], { elsewhere = [] }: How): Partial<Parts> {
  const [best] = sessions;
  if (best === undefined) throw new RangeError('a night needs at least one session');
  const { timeline, trains, ids } = joinTimelines(
    sessions.map((s) => ({ timeline: s.timeline, trains: s.gathered.trains.map((t) => t.id) })),
    framesOfKeys(elsewhere),
  );
  const gathered = joinGathered(
    sessions.map((s) => s.gathered),
    trains,
  );
  const stars = joinStars(sessions.map((s, i) => ({ stars: s.stars, ids: ids[i] ?? NO_IDS })));
  const placed = sessions.find((s) => s.gathered.site !== null) ?? best;
  const night = {
    date: best.date,
    span: placed.span ?? nightSpan(best.date, zoneOf(gathered.site)),
    gathered: { ...gathered, warnings: [...gathered.warnings, ...severalSessions(sessions)] },
    timeline,
    stars,
    pictures: null,
  };
  if (sessions.every((s) => s.standing === null)) return night;
  const sky = blindSky(sessions) ?? skyOver({ span: night.span, ...gathered, ...timeline });
  return {
    ...night,
    sky,
    accounts: accountsWithStanding(takeStanding(sessions, ids), { ...gathered, ...timeline, ...sky, stars }),
    worth: sky.almanac === null ? null : undefined,
  };
}

const NO_IDS: ReadonlyMap<string, string> = new Map();

function severalSessions({ length }: readonly SessionParts[]): Warning[] {
  if (length < 2) return [];
  return [
    {
      code: 'several-sessions',
      message: `this night consists of ${length} sessions; frames and activities that they share count once`,
      count: length,
    },
  ];
}

/** If no session knows the sky of its site, darkness is taken from one of them. */
function blindSky(sessions: readonly SessionParts[]): NightSky | undefined {
  const windows = sessions.map((s) => s.blindWindow);
  const known = windows.flatMap((window) => window ?? []);
  if (known.length < windows.length) return undefined;
  return { window: hull(known) ?? interval(0, 0), almanac: null, positions: {}, curves: [], warnings: [] };
}

/** Existing verdicts, by the frames' ids in the night: for frames that no session contains completely. */
function takeStanding(
  sessions: readonly SessionParts[],
  ids: readonly ReadonlyMap<string, string>[],
): ReadonlyMap<string, JudgedFrame> {
  const standing = new Map<string, JudgedFrame>();
  const judgedAnew = new Set<string>();
  for (const [index, { standing: own }] of sessions.entries()) {
    for (const [before, now] of ids[index] ?? NO_IDS) {
      const light = own?.get(before);
      if (own === null) judgedAnew.add(now);
      else if (light && !standing.has(now)) standing.set(now, light);
    }
  }
  return new Map([...standing].filter(([id]) => !judgedAnew.has(id)));
}

function accountsWithStanding(
  standing: ReadonlyMap<string, JudgedFrame>,
  input: Parameters<typeof takeAccount>[0],
): Accounts {
  return takeAccount(input, (light) => {
    const known = standing.get(light.id);
    return known ? { ...light, verdict: known.verdict, causes: known.causes, cleared: known.cleared } : light;
  });
}
