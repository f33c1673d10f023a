/** Logged exposures whose files are not in the session folder. */
import { counted, duration, groupBy, lightsOf } from '../model/index.js';
import type { FindingModule } from './finding.js';
import { exposedMs, exposures } from './trains.js';
import { clock, firstOf, frameLinks } from './wording.js';

export const missingFiles: FindingModule<{ readonly minimumFrames: number }> = {
  id: 'missing-files',
  title: 'Frames missing from disk',
  needs: ['event-log', 'lights'],
  defaults: { minimumFrames: 1 },
  find(night, { minimumFrames }) {
    // An aborted exposure naturally leaves no file.
    const missing = night.accounts.lights.filter((f) => f.provenance === 'log-only' && !f.aborted);
    return [...groupBy(missing, (f) => f.train)].flatMap(([train, frames]) => {
      if (frames.length < minimumFrames) return [];
      const saved = frames.filter((f) => f.savedMs !== undefined).length;
      const all = lightsOf(night, train).length;
      return [
        {
          title:
            `${counted(frames.length, 'frame')} of ${train} ${frames.length === 1 ? 'is' : 'are'} in the log but ` +
            'not on disk',
          costMs: exposedMs(frames),
          frames: frames.length,
          evidence: [
            `${duration(exposedMs(frames))} of exposure; ` +
              (saved === frames.length
                ? 'the log says that all were saved'
                : saved === 0
                  ? 'the log does not say that they were saved'
                  : `the log says that ${saved} ${saved === 1 ? 'was' : 'were'} saved`),
            `at ${firstOf(
              frames.map((f) => clock(f.exposure.startMs, night)),
              6,
            ).join(', ')}`,
          ],
          advice:
            frames.length === all
              ? `None of ${train}’s frames are here: copy them into the session folder, or correct its frames: ` +
                'globs in the rig file.'
              : `Look for them where ${train} saves, and copy them before that disk is cleared. They are counted ` +
                'here from the log alone.',
          // Bad frames are no better when they are found.
          winMs: exposedMs(frames.filter(({ verdict }) => verdict === 'kept')),
          confidence: 'high' as const,
          links: frameLinks(frames, night),
          minutes: exposures(frames),
        },
      ];
    });
  },
};
