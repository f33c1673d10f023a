/**
 * Time that trains stood ready while another train's exposure held the dither back.
 */
import { groupBy, median, sum } from '../model/index.js';
import { hoursAndMinutes, seconds } from './wording.js';
import type { FindingModule } from './finding.js';

export const ditherWait: FindingModule<{ readonly minimumMinutes: number; readonly usualSeconds: number }> = {
  id: 'dither-wait',
  title: 'Waiting for dithers',
  needs: ['two-trains', 'dithers'],
  // A few seconds per cycle are the price of two computers agreeing; common practice, no source.
  defaults: { minimumMinutes: 5, usualSeconds: 5 },
  find(night, { minimumMinutes, usualSeconds }) {
    const waits = night.dithers.flatMap((cycle) =>
      Object.entries(cycle.waits).flatMap(([train, wait]) => (wait ? [{ train, ms: wait.waitMs, cycle }] : [])),
    );
    const byTrain = groupBy(waits, (w) => w.train);
    return [...byTrain].flatMap(([train, own]) => {
      const costMs = sum(own.map((w) => w.ms));
      const winMs = sum(own.map((w) => Math.max(0, w.ms - usualSeconds * 1000)));
      if (costMs < minimumMinutes * 60_000) return [];
      const held = groupBy(own.filter((w) => w.cycle.holder !== null && w.cycle.holder !== train), (w) => w.cycle.holder);
      const [holder, byHolder] = [...held].sort((a, b) => sum(b[1].map((w) => w.ms)) - sum(a[1].map((w) => w.ms)))[0] ?? [null, []];
      return [
        {
          title: `${train} waited ${hoursAndMinutes(costMs)} for dithers`,
          costMs,
          evidence: [
            `${own.length} dither cycles; ${train} waited ${seconds(median(own.map((w) => w.ms)))} in the median and ${seconds(Math.max(...own.map((w) => w.ms)))} at most`,
            ...(holder ? [`${holder} was ready last in ${byHolder.length} of them and held ${train} for ${hoursAndMinutes(sum(byHolder.map((w) => w.ms)))}`] : []),
          ],
          advice: `Let both trains end their exposures together before a dither: give them equal exposure lengths (or one a whole multiple of the other), start ${train} so that its last exposure before the dither ends with ${holder ?? 'the other train'}'s, or dither less often.`,
          winMs,
          confidence: own.every((w) => w.cycle.certainty === 'measured') ? ('high' as const) : ('medium' as const),
          links: [{ text: 'Dither cycles', anchor: 'dithers' }],
        },
      ];
    });
  },
};
