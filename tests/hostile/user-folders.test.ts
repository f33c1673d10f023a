/** The user's own folders of rigs and dialects, and an environment that points them elsewhere. */
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { userDialectFolder, userRigFolder } from '../../src/cli/user-folder.js';
import { writeFiles } from '../support/generator/samples.js';
import { shortNight } from '../support/generator/short-night.js';
import { writeSession } from '../support/generator/write-session.js';
import { cleanUp, tempFolder } from '../support/temp-folder.js';
import { nightledger } from './support/child.js';

cleanUp();

describe('the folder of the user’s rigs', () => {
  // XDG Base Directory Specification: a relative path is invalid and to be ignored.
  it('is never found by a relative path, which would lead into the session one works in', () => {
    expect(userRigFolder({ XDG_CONFIG_HOME: 'config', HOME: '/home/mira' })).toBe(
      '/home/mira/.config/nightledger/rigs',
    );
    expect(userDialectFolder({ XDG_CONFIG_HOME: '.', APPDATA: '..', HOME: '~' })).toBeUndefined();
    expect(userRigFolder({ XDG_CONFIG_HOME: '/etc/xdg' })).toBe('/etc/xdg/nightledger/rigs');
  });

  it.skipIf(process.platform === 'win32')(
    'may hold pipes and junk, or be a file: said, and the night reported',
    async () => {
      const session = tempFolder();
      const scenario = shortNight({ begin: '2026-10-14T19:30:00.000Z', end: '2026-10-14T20:00:00.000Z' });
      writeFiles(session, writeSession(scenario, { rig: false, logs: false }).files);
      writeFiles(session, new Map([['a.log', 'one line\n'.repeat(50)]]));
      const config = tempFolder();
      for (const kind of ['rigs', 'dialects']) {
        mkdirSync(join(config, 'nightledger', kind, 'folder.yaml'), { recursive: true });
        spawnSync('mkfifo', [join(config, 'nightledger', kind, 'pipe.yaml')]);
        writeFiles(join(config, 'nightledger', kind), new Map([['junk.yaml', '\0\xff{{{']]));
      }
      const env = { XDG_CONFIG_HOME: config };
      const report = await nightledger(
        ['report', '.', '--out', join(tempFolder(), 'out'), '--no-pdf', '--stars', 'off'],
        {
          cwd: session,
          env,
          seconds: 60,
        },
      );
      expect(report, report.stderr).toMatchObject({ status: 0, withinBounds: true });
      expect(report.stderr).toContain('pipe.yaml is not a regular file');
      const init = await nightledger(['init', '.', '--print'], { cwd: session, env, seconds: 60 });
      expect(init, init.stderr).toMatchObject({ status: 0, withinBounds: true });
      const file = join(tempFolder(), 'a-file');
      writeFiles(tempFolder(), new Map([['x', '']]));
      const none = await nightledger(['init', '.', '--print'], {
        cwd: session,
        env: { XDG_CONFIG_HOME: file },
        seconds: 60,
      });
      expect(none).toMatchObject({ status: 0, withinBounds: true });
    },
  );
});
