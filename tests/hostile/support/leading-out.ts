import { symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { writeFiles } from '../../support/generator/samples.js';
import { shortNight } from '../../support/generator/short-night.js';
import { writeSession } from '../../support/generator/write-session.js';
import { tempFolder } from '../../support/temp-folder.js';

/**
 * A stranger's session whose dialect, and a link among whose frames, lead out of its folder.
 *
 * @param log heron's log, as the rig file names it
 * @param more files beside those of the session
 */
export function sessionLeadingOut(log: string, more: Readonly<Record<string, string>> = {}): string {
  const [session, outside] = [tempFolder(), tempFolder()];
  const { files } = writeSession(shortNight({ begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T20:00:00.000Z' }));
  const rig = String(files.get('rig.yaml')).replace(
    /files: "logs\/heron.jsonl"/,
    `files: "${log}", dialect: ${outside}/d.yaml`,
  );
  writeFiles(session, new Map([...files, ['rig.yaml', rig], ...Object.entries(more)]));
  writeFiles(
    outside,
    new Map([
      ['d.yaml', 'dialect: 1\n'],
      ['secret/a.fits', 'x'],
    ]),
  );
  symlinkSync(join(outside, 'secret'), join(session, 'frames/heron/more'));
  return session;
}
