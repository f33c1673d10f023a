/**
 * A record back into a night: the same stages, entered where the record's parts end.
 */
import { parseRig, type Rig } from './config/index.js';
import { gatheredUnder, placedAsBefore, rightAscensionsAsBefore, timelineUnder } from './gather/index.js';
import { ownValue, type Night, type NightSky, type Warning } from './model/index.js';
import { nightOfSessions } from './merge-sessions.js';
import { STAGES } from './pipeline.js';
import {
  nightOfKeys,
  readRecord,
  restoreParts,
  type KeptParts,
  type NightRecord,
  type SessionRecord,
} from './record/index.js';
import { nightSpan, skyOver, zoneOf } from './sky/index.js';
import { follow } from './stages.js';
import { DEFAULT_RULES } from './vocabulary/index.js';

/** A rig file's name and text. */
export interface RigText {
  readonly name: string;
  readonly text: string;
}

const NOT_JUDGED =
  'it contains verdicts but not the data behind them, so other rules cannot be tried on it: report its ' +
  'session again, or leave --rig out';

/** A recomputed night, and notices about its rig file. */
export interface NightAgain {
  readonly night: Night;
  readonly warnings: readonly Warning[];
}

/**
 * Makes a night again from the text of its record.
 *
 * @param rigText a rig file to judge it by; without one the night is unchanged
 * @throws ConfigError when the rig file cannot be used; Error when the text is no record or its parts are damaged
 */
export async function nightOfRecord(text: string, rigText?: RigText): Promise<NightAgain> {
  const reading = readRecord(text);
  if (!reading.ok) throw new Error(`it cannot be reported: ${reading.why}`);
  const given = rigText && parseRig(rigText.name, rigText.text);
  return { night: await nightOf(reading.record, given?.rig), warnings: given?.warnings ?? [] };
}

async function nightOf(record: NightRecord, rig: Rig | undefined): Promise<Night> {
  if (record.parts !== undefined) return ofSessions(record.parts, rig);
  if (record.stages === undefined) return fromKeys(record, rig);
  const restored = restoreParts(record.stages);
  if (!restored.ok) throw new Error(`it cannot be reported: ${restored.why}`);
  // Pictures need the frames.
  return follow(STAGES, { ...(rig ? judgedBy(restored.parts, rig) : restored.parts), pictures: null });
}

/** The parts under another rig file; the sky is recomputed, since darkness and limits may differ. */
function judgedBy({ date, span, gathered, timeline, stars }: KeptParts, given: Rig): Omit<KeptParts, 'sky'> {
  const rig = placedAsBefore(rightAscensionsAsBefore(given, timeline.targets), timeline.targets);
  return {
    date,
    span,
    gathered: gatheredUnder(gathered, rig),
    timeline: timelineUnder(timeline, rig),
    stars,
  };
}

/** A merged night, recomputed from its sessions. */
async function ofSessions(sessions: readonly SessionRecord[], rig: Rig | undefined): Promise<Night> {
  const night = await nightOfSessions(sessions);
  if (!rig) return night;
  if (sessions.some((s) => s.stages === undefined)) throw new Error(NOT_JUDGED);
  return follow(STAGES, { ...judgedBy(night, rig), pictures: null });
}

/** A record without parts is reported as it is: it has no activities for judging it again. */
async function fromKeys(record: NightRecord, rig: Rig | undefined): Promise<Night> {
  if (rig) throw new Error(NOT_JUDGED);
  const { knowsSky, window, ...known } = nightOfKeys(record, DEFAULT_RULES);
  const { gathered, timeline, accounts } = known;
  const span = nightSpan(known.date, zoneOf(gathered.site));
  const sky: NightSky = knowsSky
    ? { ...skyOver({ span, ...gathered, ...timeline }), window }
    : { window, almanac: null, positions: {}, curves: [], warnings: [] };
  const lights = accounts.lights.map((light) => ({ ...light, sky: ownValue(sky.positions, light.id) ?? null }));
  return follow(STAGES, {
    ...known,
    span,
    sky,
    stars: null,
    pictures: null,
    accounts: { ...accounts, lights },
    worth: knowsSky ? undefined : null,
    replay: null,
  });
}
