/**
 * Adding a session's record to the archive: idempotent, atomic, and without counting a frame twice.
 */
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { slug } from '../../files/slug.js';
import { append, type Warning } from '../../model/index.js';
import { sessionsOf } from '../read.js';
import type { FrameRecord, NightRecord, SessionRecord } from '../schema.js';
import { filesOfNight, readRecordFile, type RecordFile } from './files.js';
import { recordText } from './record-text.js';
import { keepSums } from './kept-sums.js';
import { mayBeSameSite } from './same-site.js';
import type { WriteFile } from './write-file.js';

/** The site's part of a file name is no longer than this. */
const SITE_LENGTH = 40;

/** Makes one record of several sessions of a night. */
export type MergeSessions = (
  sessions: readonly SessionRecord[],
  how?: {
    /** Frames that another night counts. */
    readonly elsewhere?: readonly FrameRecord[];
    /** Only for the sums. */
    readonly briefly?: boolean;
  },
) => Promise<NightRecord>;

/** The result of adding a session's record. */
export interface Added {
  readonly file: string;
  readonly night: string;
  readonly state: 'new' | 'replaced' | 'merged' | 'unchanged';
  readonly warnings: readonly Warning[];
}

/**
 * Adds one session's record. The same session again replaces itself; another session of the same night at the same site
 * is merged with it. Call it while holding the archive's lock.
 *
 * @param record with its `archive` field filled in
 */
export async function addSession(
  archive: string,
  record: SessionRecord,
  write: WriteFile,
  merge: MergeSessions,
): Promise<Added> {
  const warnings: Warning[] = [];
  const files = filesOfNight(archive, record.night).flatMap((file): RecordFile[] => {
    const there = readRecordFile(archive, file, (w) => warnings.push(w));
    return there ? [{ file, record: there }] : [];
  });
  const put = async (file: string, written: NightRecord | SessionRecord): Promise<void> => {
    const text = recordText(written);
    await write(join(archive, file), text);
    await keepSums(archive, file, text, write);
  };
  // A record of the same site takes precedence over one without a site.
  const candidates = files.filter((f) => mayBeSameSite(f.record.site, record.site));
  const home = candidates.find((f) => f.record.site !== null) ?? candidates[0];
  if (!home) {
    const file = freeName(archive, record);
    await put(file, record);
    return { file, night: record.night, state: 'new', warnings };
  }
  const before = sessionsOf(home.record);
  const replaced = before.find((s) => s.archive?.session === record.archive?.session);
  if (replaced && recordText(replaced) === recordText(record))
    return { file: home.file, night: record.night, state: 'unchanged', warnings };
  const merged = await merge([...before.filter((s) => s !== replaced), record]);
  append(warnings, goneFrames(home.file, replaced, record));
  await put(home.file, merged);
  return { file: home.file, night: record.night, state: replaced ? 'replaced' : 'merged', warnings };
}

/** The name of a night's file: its date, and the site's name if another site already has the date. */
function freeName(archive: string, record: SessionRecord): string {
  // Existing files keep their names: another site's record, a newer program's, a damaged one that could not be set
  // aside.
  const isTaken = (name: string): boolean => existsSync(join(archive, name));
  const plain = `${record.night}.json`;
  if (!isTaken(plain)) return plain;
  const site = slug(record.site?.name ?? '', SITE_LENGTH) || 'other-site';
  for (let n = 1; ; n++) {
    const name = `${record.night}.${site}${n === 1 ? '' : `-${n}`}.json`;
    if (!isTaken(name)) return name;
  }
}

/** Frames that the session's folder held when it was last added, and no longer holds. */
function goneFrames(file: string, before: SessionRecord | undefined, now: SessionRecord): Warning[] {
  if (!before) return [];
  const key = (f: NightRecord['frames'][number]): string => f.identity ?? `${f.train} ${f.begin}`;
  const held = new Set(now.frames.map(key));
  const gone = before.frames.filter((f) => !held.has(key(f))).length;
  if (gone === 0) return [];
  return [
    {
      code: 'frames-gone',
      message:
        `${file}: ${gone} frame${gone === 1 ? '' : 's'} that this session's folder held before ` +
        `${gone === 1 ? 'is' : 'are'} no longer in it and no longer count${gone === 1 ? 's' : ''}`,
      source: { file },
      count: gone,
    },
  ];
}
