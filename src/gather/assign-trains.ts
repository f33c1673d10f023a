/**
 * Which train a frame belongs to: by the rig file's globs, by header values, or both.
 */
import { ConfigError, type TrainConfig } from '../config/index.js';
import { pathMatcher } from '../files/glob.js';
import { KEYWORDS } from './fits/keywords.js';
import { extended, ownValue, type HeaderFrame, type Warning } from '../model/index.js';

/** A frame whose train is known. */
export type TrainFrame = HeaderFrame & { readonly train: string };

/** The frame files to read: those under any train's globs, or all when some train is matched by header only. */
export function wantedFrameFiles(paths: readonly string[], trains: readonly TrainConfig[]): string[] {
  if (trains.some((t) => t.frames.length === 0)) return [...paths];
  const wanted = pathMatcher(trains.flatMap((t) => t.frames));
  return paths.filter(wanted);
}

const LENGTH_KEYWORDS: readonly string[] = KEYWORDS.exposureSeconds;

/** Keywords whose raw values are needed to distinguish trains. */
export function matchKeywords(trains: readonly TrainConfig[]): string[] {
  return [...new Set(trains.flatMap((t) => Object.keys(t.match).map((k) => k.toUpperCase())))];
}

/**
 * Assigns each frame to its train. A frame that two trains claim is left out and reported: guessing would count it for
 * the wrong one.
 *
 * @throws ConfigError when a train is left with no frame but such
 */
export function assignTrains(
  frames: readonly HeaderFrame[],
  trains: readonly TrainConfig[],
): { frames: TrainFrame[]; warnings: Warning[] } {
  const rules = trains.map((train) => ({
    id: train.id,
    inGlobs: train.frames.length === 0 ? () => true : pathMatcher(train.frames),
    match: Object.entries(train.match).map(
      ([keyword, value]) => [keyword.toUpperCase(), new Set([value].flat().map(normal))] as const,
    ),
  }));
  const assigned: TrainFrame[] = [];
  const strays: HeaderFrame[] = [];
  const disputed: Disputed[] = [];
  for (const frame of frames) {
    const claims = rules.filter(
      (rule) =>
        rule.inGlobs(frame.file) &&
        rule.match.every(([keyword, values]) => values.has(normal(headerValue(frame, keyword)))),
    );
    if (claims.length > 1) disputed.push({ file: frame.file, ids: claims.map((c) => c.id) });
    else if (claims[0]) assigned.push(extended(frame, { train: claims[0].id }));
    else strays.push(frame);
  }
  const served = new Set(assigned.map((f) => f.train));
  const emptying = disputed.find(({ ids }) => ids.some((id) => !served.has(id)));
  if (emptying) throw new ConfigError([`${claimed(emptying)}; ${REMEDY}`]);
  return { frames: assigned, warnings: [...strayWarnings(strays), ...disputeWarnings(disputed)] };
}

/** A header's value of a keyword; an exposure length under whichever of its keywords the header has. */
function headerValue(frame: HeaderFrame, keyword: string): string | number | boolean | undefined {
  const stated = ownValue(frame.cards, keyword);
  return stated === undefined && LENGTH_KEYWORDS.includes(keyword) ? frame.exposureSeconds : stated;
}

/** A frame that more than one train claims. */
interface Disputed {
  readonly file: string;
  readonly ids: readonly string[];
}

const REMEDY = 'make their frames: globs or match: values exclude each other';

function claimed({ file, ids }: Disputed): string {
  return `${file} is claimed by the trains ${ids.join(' and ')}`;
}

/** Lights by themselves: they are integration that counts nowhere. */
function strayWarnings(strays: readonly HeaderFrame[]): Warning[] {
  const lights = strays.filter(({ kind }) => kind === 'light');
  const others = strays.filter(({ kind }) => kind !== 'light');
  return [
    { code: 'light-of-no-train', own: lights },
    { code: 'frame-of-no-train', own: others },
  ].flatMap(({ code, own }): Warning[] => {
    const [first] = own;
    if (!first) return [];
    const one = own.length === 1;
    return [
      {
        code,
        message:
          `${own.length} frame${one ? ' belongs' : 's belong'} to no train (${first.file}${one ? '' : ', …'}) and ` +
          `${one ? 'is' : 'are'} left out; extend frames: or match: in the rig file`,
        source: { file: first.file },
        count: own.length,
      },
    ];
  });
}

function disputeWarnings(disputed: readonly Disputed[]): Warning[] {
  const [first] = disputed;
  if (!first) return [];
  const more = disputed.length === 1 ? '' : `, and ${disputed.length - 1} more like it`;
  return [
    {
      code: 'frame-of-two-trains',
      message: `${claimed(first)}${more}, and left out; ${REMEDY}`,
      source: { file: first.file },
      count: disputed.length,
    },
  ];
}

function normal(value: string | number | boolean | undefined): string {
  if (value === undefined) return '';
  const asNumber = typeof value === 'string' && value.trim() !== '' ? Number(value) : value;
  return typeof asNumber === 'number' && Number.isFinite(asNumber)
    ? String(asNumber)
    : String(value).trim().toLowerCase();
}
