/**
 * A refocus on the train that carries the guider, which paused the guiding under another train's open shutter.
 */
import { durationMs, groupBy, sum } from '../model/index.js';
import { clock, hoursAndMinutes } from './wording.js';
import type { FindingModule } from './finding.js';

export const partnerRefocus: FindingModule<{ readonly minimumFrames: number }> = {
  id: 'partner-refocus',
  title: 'Refocus under the other train’s open shutter',
  needs: ['two-trains', 'guiding-events', 'lights'],
  defaults: { minimumFrames: 1 },
  find(night, { minimumFrames }) {
    const harmed = night.frames.filter(
      (f) =>
        f.verdict !== 'kept' &&
        f.causes.some((c) => c.kind === 'guiding-off' && c.causedBy !== undefined && c.causedBy !== f.train),
    );
    const byCauser = groupBy(harmed, (f) => f.causes.find((c) => c.kind === 'guiding-off' && c.causedBy !== undefined)!.causedBy!);
    return [...byCauser].flatMap(([causer, frames]) => {
      if (frames.length < minimumFrames) return [];
      const victims = [...new Set(frames.map((f) => f.train))].join(', ');
      const costMs = sum(frames.map((f) => durationMs(f.exposure)));
      return [
        {
          title: `${causer}'s refocus cost ${victims} ${frames.length} frame${frames.length === 1 ? '' : 's'}`,
          costMs,
          frames: frames.length,
          evidence: frames.map((f) => {
            const cause = f.causes.find((c) => c.kind === 'guiding-off' && c.causedBy === causer)!;
            return `${clock(f.exposure.startMs, night)} ${f.train} ${f.filter ?? ''}: ${cause.evidence}`;
          }),
          advice: `Refocus both trains together, while both shutters are closed (right after a dither's exposures have ended, say), or guide with a separate guide scope so that a refocus on ${causer} leaves the guiding alone. ${hoursAndMinutes(costMs)} of exposure would have been kept.`,
          winMs: costMs,
          confidence: 'high' as const,
          links: frames.map((f) => ({ text: clock(f.exposure.startMs, night), anchor: `frame-${f.id}` })),
        },
      ];
    });
  },
};
