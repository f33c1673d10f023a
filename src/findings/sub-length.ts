/**
 * Subs too short to drown the read noise, or longer than they need be while frames are being lost.
 */
import { groupBy, listed, sum, weighedTotals, type NightFacts, type SubLength, type Total } from '../model/index.js';
import type { FindingDraft, FindingModule } from './finding.js';
import { areInStep, inStep, type Advised, type Unfit } from './lengths-in-step.js';
import { firstOf } from './wording.js';

export const subLength: FindingModule<{
  readonly minimumMinutes: number;
  readonly minimumShare: number;
  readonly clearlyMore: number;
}> = {
  id: 'sub-length',
  title: 'Length of the subs',
  needs: ['worth', 'read-noise'],
  // A sub that misses the tolerance by a hair is a good sub: common practice, no source.
  defaults: { minimumMinutes: 5, minimumShare: 0.02, clearlyMore: 0.03 },
  find(night, { minimumMinutes, minimumShare, clearlyMore }) {
    const unfit = weighedTotals(night).flatMap((total): Unfit[] => {
      const { sub } = total.worth;
      if (!sub || sub.best.winMs < minimumMinutes * 60_000 || sub.best.winMs < minimumShare * total.ms.kept) return [];
      const isShort = sub.best.seconds > sub.seconds;
      return isShort && sub.extraNoise < sub.tolerated + clearlyMore ? [] : [{ total, sub, isShort }];
    });
    // One change of the plan for the night, not one for each filter and train.
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
        'cost and recoverable time are those of exposure without read noise that would be worth as much',
      ],
      advice: adviceOf(advised, isShort, night),
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
  const perTrain = [...groupBy(own, ({ total, seconds }) => JSON.stringify([total.train, seconds])).values()].flatMap(
    (alike) => {
      const [one] = alike;
      return one ? [{ train: one.total.train, filters: filtersOf(alike), about: length(one.seconds) }] : [];
    },
  );
  const lengths = [...groupBy(perTrain, (l) => JSON.stringify([l.filters, l.about])).values()].flatMap((alike) => {
    const [one] = alike;
    return one ? [{ ...one, train: listed(alike.map((l) => l.train)) }] : [];
  });
  const [one] = lengths;
  const how = isShort ? 'longer' : 'shorter';
  const what =
    one && lengths.length === 1
      ? `Expose ${one.filters} ${how}${perTrain.length > 1 ? ` on ${one.train}` : ''}, about ${one.about}`
      : `Expose ${how}, about ${lengths.map((l) => `${l.about} in ${l.filters} on ${l.train}`).join(', ')}`;
  return (
    (isShort
      ? `${what}, if guiding and the brightest stars bear it, or use a camera mode with less read noise.`
      : `${what}: each frame lost to the mount or the guiding then takes less with it, and read noise still does not ` +
        'matter.') + stepSentence(own, night)
  );
}

function evidenceOf({ total, sub, seconds }: Advised): string[] {
  return [
    `${total.train}, ${total.filter}, ${total.target}: ` +
      `${rate(sub.skyElectronsPerSecond + sub.darkElectronsPerSecond)} electrons a second and pixel of sky and dark ` +
      `current against ${sub.readNoiseElectrons} electrons of read noise: ${percent(sub.extraNoise)} more noise than ` +
      `one long exposure; it would be ${Math.round(100 * sub.tolerated)} % at ${length(sub.enoughSeconds)}`,
    `${length(seconds)} would have had ${percent(noiseAt(sub, seconds))} more noise, ` +
      (sub.lostFrames === 0
        ? 'with no frame lost to mount or guiding'
        : `with ${sub.lostFrames} frame${sub.lostFrames === 1 ? '' : 's'} lost at that length`) +
      ` and pauses of ${sub.pauseSeconds.toFixed(1)} s`,
  ];
}

/** Noise above that of one long exposure at another length, as a share (docs/worth.md). */
function noiseAt({ best, readNoiseElectrons, ...sub }: SubLength, seconds: number): number {
  const background = sub.skyElectronsPerSecond + sub.darkElectronsPerSecond;
  return seconds === best.seconds
    ? best.extraNoise
    : Math.sqrt(1 + readNoiseElectrons ** 2 / (background * seconds)) - 1;
}

function lostMs({ lostFrames, seconds }: SubLength): number {
  return lostFrames * seconds * 1000;
}

/** Kept time that read noise took: what is over the same time in one exposure without it. */
function readNoiseCost({ ms }: Total, { extraNoise }: SubLength): number {
  return ms.kept * (1 - 1 / (1 + extraNoise) ** 2);
}

/** Whether the lengths meet at the dither, and why not where they cannot. */
function stepSentence(own: readonly Advised[], night: NightFacts): string {
  if (night.gathered.trains.length < 2) return '';
  return areInStep(own, night)
    ? ' So the trains meet at the dither.'
    : ' No length near these is a whole multiple of another train’s: at each dither one waits for the other.';
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
