/** Subs too short to overcome the read noise, or longer than necessary while frames are being lost. */
import {
  calibrationOf,
  DITHER_PLACES,
  durationMs,
  groupBy,
  isReplayed,
  lightsOf,
  listed,
  sum,
  weighedTotals,
  type NightFacts,
  type SubLength,
  type Total,
} from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { inStep, meetingSpan, type Advised, type Unfit } from './lengths-in-step.js';
import { firstOf } from './wording.js';

/** A train with this fraction of subs roughly guided cannot guide longer ones. Common practice, no source. */
const ROUGH_SHARE = 0.1;

export const subLength: FindingModule<{
  readonly minimumMinutes: number;
  readonly minimumShare: number;
  readonly clearlyMore: number;
}> = {
  id: 'sub-length',
  title: 'Length of the subs',
  needs: ['worth', 'read-noise'],
  // A sub that misses the tolerance by very little is a good sub: common practice, no source.
  defaults: { minimumMinutes: 5, minimumShare: 0.02, clearlyMore: 0.03 },
  find(night, { minimumMinutes, minimumShare, clearlyMore }) {
    const unfit = weighedTotals(night).flatMap((total): Unfit[] => {
      const { sub } = total.worth;
      if (!sub || sub.best.winMs < minimumMinutes * 60_000 || sub.best.winMs < minimumShare * total.ms.kept) return [];
      const isShort = sub.best.seconds > sub.seconds;
      return isShort && sub.extraNoise < sub.tolerated + clearlyMore ? [] : [{ total, sub, isShort }];
    });
    // One change to the plan per night, not one for each filter and train.
    return [...groupBy(unfit, (one) => one.isShort).values()].flatMap((own) => findingOf(own, night));
  },
};

function findingOf(own: readonly Unfit[], night: NightFacts): FindingDraft[] {
  const [first] = own;
  if (!first) return [];
  const { isShort } = first;
  const advised = inStep(own, night);
  const fault = isShort ? 'were too short' : 'were longer than they needed to be';
  const single = whose(own, ({ sub }) => sub.seconds);
  return [
    {
      title: single.length === 1 ? `${single.join('')} ${fault}` : `Subs ${fault}: ${listed(single)}`,
      costMs: sum(own.map(({ total, sub }) => (isShort ? readNoiseCost(total, sub) : lostMs(sub)))),
      evidence: [
        ...firstOf(advised.flatMap(evidenceOf), 6),
        'cost and recoverable time are given as exposure free of read noise that is worth as much',
      ],
      advice: adviceOf(advised, isShort, night),
      newDarks: newDarksOf(advised, night),
      winMs: sum(advised.map(({ winMs }) => winMs)),
      confidence: own.every(({ total }) => total.worth.sky === 'measured') ? 'high' : 'medium',
      links: [{ text: 'Effective integration', anchor: 'effective' }],
    },
  ];
}

/** `heron’s Ha and OIII subs of 300 s`, for each train and length. */
function whose(own: readonly Unfit[], secondsOf: (one: Unfit) => number): string[] {
  return [...groupBy(own, (one) => JSON.stringify([one.total.train, secondsOf(one)])).values()].flatMap((alike) => {
    const [one] = alike;
    return one ? [`${one.total.train}’s ${filtersOf(alike)} subs of ${length(secondsOf(one))}`] : [];
  });
}

function filtersOf(own: readonly Unfit[]): string {
  return listed([...new Set(own.map(({ total }) => total.filter))]);
}

function adviceOf(own: readonly Advised[], isShort: boolean, night: NightFacts): string {
  const what = `Expose ${isShort ? 'longer' : 'shorter'}, about ${listed(lengthsOf(own))}`;
  return (
    (isShort
      ? `${what}, if guiding and the brightest stars allow it, or use a camera mode with less read noise.`
      : `${what}: each frame lost to the mount or the guiding then costs less, and read noise still does not ` +
        'matter.') +
    guidingSentence(own, isShort, night) +
    stepSentence(own, night) +
    placesSentence(own, night)
  );
}

/** Lengths of which a train took no frames on this night, lights or darks. */
function newDarksOf(own: readonly Advised[], night: NightFacts): string[] {
  const isNew = ({ total, seconds }: Advised): boolean =>
    ![...lightsOf(night, total.train), ...calibrationOf(night).filter((f) => f.train === total.train)].some(
      (f) => Math.abs((f.askedMs ?? durationMs(f.exposure)) - 1000 * seconds) < 500,
    );
  return [...new Set(own.filter(isNew).map(({ total, seconds }) => `${length(seconds)} on ${total.train}`))];
}

/** `900 s in Ha and OIII on heron and in SII on wren`, for each length. */
function lengthsOf(own: readonly Advised[]): string[] {
  const filters = [...new Set(own.map(({ total }) => total.filter))];
  const named = [...groupBy(own, ({ total, seconds }) => JSON.stringify([total.train, seconds])).values()].flatMap(
    (alike) => {
      const [one] = alike;
      const through = new Set(alike.map(({ total }) => total.filter));
      return one
        ? [
            {
              about: length(one.seconds),
              train: one.total.train,
              through: listed(filters.filter((f) => through.has(f))),
            },
          ]
        : [];
    },
  );
  return [...groupBy(named, ({ about }) => about)].map(([about, alike]) => {
    const where = [...groupBy(alike, ({ through }) => through)].map(
      ([through, by]) => `in ${through} on ${listed(by.map(({ train }) => train))}`,
    );
    return `${about} ${listed(where)}`;
  });
}

/** A train that fails to guide short subs cannot guide longer ones. */
function guidingSentence(own: readonly Advised[], isShort: boolean, night: NightFacts): string {
  if (!isShort) return '';
  const trains = new Set(own.map(({ total }) => total.train));
  const rough = [...trains].flatMap((train) => {
    const lights = lightsOf(night, train);
    const harmed = lights.filter((f) => f.causes.some((c) => c.kind === 'rough-guiding')).length;
    return harmed >= ROUGH_SHARE * lights.length ? [`${harmed} of the ${lights.length} subs of ${train}`] : [];
  });
  return rough.length === 0 ? '' : ` First steady the guiding, which was too rough for ${listed(rough)} as it is.`;
}

/** Longer subs are fewer: preserves the number of dither positions. */
function placesSentence(own: readonly Advised[], night: NightFacts): string {
  const dither = isReplayed(night.replay) ? night.replay.dither : null;
  const leading = own.filter(({ total }) => total.train === dither?.train);
  if (dither === null || leading.length === 0) return '';
  const fewest = Math.min(...leading.map(({ total, sub, seconds }) => (total.frames.taken * sub.seconds) / seconds));
  // The number after which all trains meet.
  const span = night.gathered.trains.length > 1 ? meetingSpan(own, night) : null;
  const subsIn = (lengthSeconds: number): number =>
    Math.min(...leading.map(({ seconds, sub }) => Math.round(lengthSeconds / (seconds + sub.pauseSeconds))));
  const together = span === null ? 1 : Math.max(1, subsIn(span));
  const most = Math.max(1, Math.floor(fewest / DITHER_PLACES));
  const every = most < together ? most : most - (most % together);
  return every >= dither.frames
    ? ''
    : ` Dither after ${every === 1 ? 'each of them' : `every ${every} of them`}: there are fewer of them, and each ` +
        'filter needs a dozen positions.';
}

function evidenceOf({ total, sub, seconds }: Advised): string[] {
  return [
    `${total.train}, ${total.filter}, ${total.target}: ` +
      `${rate(sub.skyElectronsPerSecond + sub.darkElectronsPerSecond)} electrons per second and pixel of sky and ` +
      `dark current against ${sub.readNoiseElectrons} electrons of read noise: ${percent(sub.extraNoise)} more ` +
      `noise than one long exposure; it would be ${Math.round(100 * sub.tolerated)} % at ${length(sub.enoughSeconds)}`,
    `${length(seconds)} would have had ${percent(noiseAt(sub, seconds))} more noise, ` +
      (sub.lostFrames === 0
        ? 'with no frame lost to mount or guiding'
        : `with ${sub.lostFrames} frame${sub.lostFrames === 1 ? '' : 's'} lost at that length`) +
      ` and pauses of ${sub.pauseSeconds.toFixed(1)} s`,
  ];
}

/** Noise relative to one long exposure at another length, as a fraction of the excess (docs/worth.md). */
function noiseAt({ best, readNoiseElectrons, ...sub }: SubLength, seconds: number): number {
  const background = sub.skyElectronsPerSecond + sub.darkElectronsPerSecond;
  return seconds === best.seconds
    ? best.extraNoise
    : Math.sqrt(1 + readNoiseElectrons ** 2 / (background * seconds)) - 1;
}

function lostMs({ lostFrames, seconds }: SubLength): number {
  return lostFrames * seconds * 1000;
}

/** Kept time lost to read noise: the excess over the same time in one exposure without it. */
function readNoiseCost({ ms }: Total, { extraNoise }: SubLength): number {
  return ms.kept * (1 - 1 / (1 + extraNoise) ** 2);
}

/** Whether the lengths meet at the dither, and if not, why. */
function stepSentence(own: readonly Advised[], night: NightFacts): string {
  if (night.gathered.trains.length < 2) return '';
  return meetingSpan(own, night) !== null
    ? ' With these lengths the trains end together at the dither.'
    : ' No length near these fits as a whole multiple of another train’s: at each dither one waits for the other.';
}

function length(value: number): string {
  return `${value.toFixed(value < 10 ? 1 : 0)} s`;
}

function percent(share: number): string {
  return `${(100 * share).toFixed(share < 0.1 ? 1 : 0)} %`;
}

function rate(value: number): string {
  return value.toPrecision(2);
}
