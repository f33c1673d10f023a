import { describe, expect, it } from 'vitest';
import {
  durationMs,
  itemAt,
  overlapMs,
  subtract,
  type PlannedBlock,
  type PlannedNight,
  type TrainInBlock,
} from '../../src/model/index.js';
import { planNights, type NightToPlan, type PlanQuestion } from '../../src/plan/index.js';
import { some } from '../support/runs.js';
import { randomArchive } from './random-archives.js';

const HOUR_MS = 3_600_000;
const SEEDS = Array.from({ length: 60 }, (_, i) => i + 1);
const lengthMs = ({ span }: PlannedBlock): number => span.endMs - span.startMs;

/** Worth of a filter all through a block, from the question itself. */
function isHad(question: PlanQuestion, night: NightToPlan, { span, target }: PlannedBlock, filter: string): boolean {
  const index = question.targets.findIndex(({ name }) => name === target);
  return night.slots
    .filter((slot) => slot.span.startMs >= span.startMs && slot.span.endMs <= span.endMs)
    .every((slot) => slot.targets[index]?.isUp === true && slot.targets[index].worth(filter) > 0);
}

interface Run {
  readonly filter: string;
  readonly blocks: PlannedBlock[];
}

/** Stretches in which a train keeps its filter on one target, visit after visit. */
function visitsOf({ blocks }: PlannedNight, train: string): Run[][] {
  const visits: Run[][] = [];
  for (const block of blocks) {
    if (block.isNewTarget) visits.push([]);
    const own = block.trains.find((one) => one.train === train);
    if (own?.state !== 'exposes') continue;
    const runs = itemAt(visits, visits.length - 1);
    const last = runs.at(-1);
    if (last?.filter === own.filter && last.blocks.at(-1)?.span.endMs === block.span.startMs) last.blocks.push(block);
    else runs.push({ filter: own.filter, blocks: [block] });
  }
  return visits;
}

/** Hours towards goals: extra depth alone is no reason to leave what a goal needs. */
function addsOf({ blocks }: Run, train: string): number {
  const exposing = blocks.flatMap(({ trains }) => trains.find((one) => one.train === train) ?? []);
  return exposing.reduce((hours, one) => hours + (one.state === 'exposes' ? one.addsHours : 0), 0);
}

// Four that are soon planned; the whole list holds some that take a hundred times as long.
describe.each(some(SEEDS, 4))('a plan of random archive %s', (seed) => {
  const question = randomArchive(seed);
  const nights = planNights(question);

  it('is stated to be near the best on every night', () => {
    for (const { shortOfBest } of nights) expect(shortOfBest).toBeLessThanOrEqual(0.05);
  });

  it('adds no more than is lacking, and says what goes beyond', () => {
    const left = new Map(
      question.targets.flatMap(({ name, lines }) => lines.map((line) => [`${name} ${line.filter}`, line.hours])),
    );
    for (const { blocks } of nights)
      for (const { target, trains } of blocks)
        for (const train of trains) {
          if (train.state === 'rests') continue;
          const key = `${target} ${train.filter}`;
          const rest = (left.get(key) ?? 0) - train.addsHours;
          expect(rest).toBeGreaterThanOrEqual(-1e-9);
          left.set(key, rest);
          const kept = itemAt(
            question.trains,
            question.trains.findIndex(({ id }) => id === train.train),
          ).keptShare;
          const whole = (train.subs * train.subSeconds * kept) / 3600;
          // The last sub for a goal may go beyond it unsaid.
          expect(train.addsHours + train.beyondHours).toBeLessThanOrEqual(whole + 1e-9);
          expect(train.addsHours + train.beyondHours).toBeGreaterThan(whole - train.subSeconds / 3600);
        }
  });

  it('keeps a filter for an hour, unless its goal needs less or no other can go on', () => {
    nights.forEach(({ lines }, i) => {
      const night = itemAt(question.nights, i);
      for (const { id } of question.trains)
        for (const runs of visitsOf(itemAt(nights, i), id))
          runs.forEach(({ filter, blocks }, at) => {
            if (blocks.reduce((ms, block) => ms + lengthMs(block), 0) >= HOUR_MS) return;
            const line = lines.find((one) => one.target === blocks[0]?.target && one.filter === filter);
            if (line && line.lacksHours < 0.25) return;
            for (const beside of [runs[at - 1], runs[at + 1]])
              if (beside && addsOf(beside, id) > 0)
                expect(
                  blocks.every((block) => isHad(question, night, block, beside.filter)),
                  filter,
                ).toBe(false);
          });
    });
  });

  it('leaves no twenty minutes of darkness free without a reason that holds', () => {
    nights.forEach(({ window, blocks, free }, i) => {
      const spans = [...blocks, ...free].map(({ span }) => span);
      for (const gap of subtract(window ? [window] : [], spans)) expect(durationMs(gap)).toBeLessThan(1_200_000);
      for (const { span, why } of free)
        for (const { targets, reasons } of why)
          for (const name of targets) {
            const index = question.targets.findIndex((one) => one.name === name);
            const skies = itemAt(question.nights, i)
              .slots.filter((slot) => overlapMs(slot.span, span) > 0)
              .map((slot) => itemAt(slot.targets, index));
            const filters = itemAt(question.targets, index).lines.flatMap(({ filter }) => filter ?? []);
            const up = skies.filter(({ isUp }) => isUp);
            expect(reasons.includes('low')).toBe(up.length < skies.length);
            if (reasons.includes('moon'))
              expect(up.some((sky) => filters.some((filter) => sky.bar(filter) === 'moon'))).toBe(true);
            if (reasons.includes('effort'))
              expect(up.some((sky) => filters.some((filter) => sky.worth(filter) > 0))).toBe(true);
            if (reasons.includes('moon-effort'))
              expect(
                up.some((sky) => filters.some((one) => sky.worth(one) < sky.moonless(one))),
                'moonlight',
              ).toBe(true);
            if (reasons.includes('later') || reasons.includes('reached'))
              expect(blocks.map(({ target }) => target)).toContain(name);
          }
    });
  });

  it('has no two blocks one after the other in which the same is done', () => {
    const doneIn = ({ trains }: PlannedBlock): string =>
      trains.map((train) => (train.state === 'exposes' ? train.filter : '')).join();
    for (const { blocks } of nights)
      blocks.forEach((block, i) => {
        const before = blocks[i - 1];
        if (before && !block.isNewTarget) expect(doneIn(block)).not.toBe(doneIn(before));
      });
  });

  it('lets no train rest without a reason that holds', () => {
    nights.forEach(({ blocks }, i) => {
      for (const block of blocks) {
        const target = question.targets.find(({ name }) => name === block.target);
        for (const train of block.trains) {
          if (train.state === 'exposes') continue;
          const filters = (target?.lines ?? []).flatMap(({ filter }) => filter ?? []);
          expectReason(train, block, filters, (filter) => isHad(question, itemAt(question.nights, i), block, filter));
        }
      }
    });
  });
});

function expectReason(
  { why }: Extract<TrainInBlock, { state: 'rests' }>,
  block: PlannedBlock,
  filters: readonly string[],
  isTakeable: (filter: string) => boolean,
): void {
  // All goals are for all trains.
  expect(why).not.toBe('no-goal');
  if (why === 'sky') expect(filters.some(isTakeable)).toBe(false);
  if (why === 'short') expect(lengthMs(block)).toBeLessThan(HOUR_MS);
  if (why === 'out-of-step') expect(block.trains.some((train) => train.state === 'exposes')).toBe(true);
}
