/**
 * Which train a frame belongs to: by the rig file's globs, by header values, or both.
 */
import picomatch from 'picomatch';
import { ConfigError, type TrainConfig } from '../config/index.js';
import type { HeaderFrame, Warning } from '../model/index.js';

/** A frame whose train is known. */
export interface TrainFrame extends HeaderFrame {
  readonly train: string;
}

/** Matches relative paths against globs; case matters no more than it does on the user's disk. */
export function pathMatcher(globs: readonly string[]): (path: string) => boolean {
  const isMatch = picomatch([...globs], { nocase: true, dot: false });
  return (path) => isMatch(path);
}

/** The frame files to read: those under any train's globs, or all when some train goes by header alone. */
export function wantedFrameFiles(paths: readonly string[], trains: readonly TrainConfig[]): string[] {
  if (trains.some((t) => t.frames.length === 0)) return [...paths];
  const wanted = pathMatcher(trains.flatMap((t) => t.frames));
  return paths.filter(wanted);
}

/** Keywords whose raw values are needed to tell trains apart. */
export function matchKeywords(trains: readonly TrainConfig[]): string[] {
  return [...new Set(trains.flatMap((t) => Object.keys(t.match).map((k) => k.toUpperCase())))];
}

/**
 * Assigns each frame to its train.
 *
 * @throws ConfigError when two trains claim the same file: guessing would count a frame for the wrong train
 */
export function assignTrains(
  frames: readonly HeaderFrame[],
  trains: readonly TrainConfig[],
): { frames: TrainFrame[]; warnings: Warning[] } {
  const rules = trains.map((train) => ({
    id: train.id,
    inGlobs: train.frames.length === 0 ? () => true : pathMatcher(train.frames),
    match: Object.entries(train.match).map(([keyword, value]) => [keyword.toUpperCase(), normal(value)] as const),
  }));
  const assigned: TrainFrame[] = [];
  const strays: HeaderFrame[] = [];
  for (const frame of frames) {
    const claims = rules.filter(
      (rule) =>
        rule.inGlobs(frame.file) && rule.match.every(([keyword, value]) => normal(frame.cards?.[keyword]) === value),
    );
    if (claims.length > 1) {
      const names = claims.map((c) => c.id).join(' and ');
      throw new ConfigError([
        `${frame.file} is claimed by the trains ${names}; make their frames: globs or match: values exclude each other`,
      ]);
    }
    if (claims[0]) assigned.push({ ...frame, train: claims[0].id });
    else strays.push(frame);
  }
  const first = strays[0];
  const warnings: Warning[] = first
    ? [
        {
          code: 'frame-of-no-train',
          message: `${strays.length} frame${strays.length === 1 ? '' : 's'} belong${strays.length === 1 ? 's' : ''} to no train (${first.file}${strays.length > 1 ? ', …' : ''}) and are left out; extend frames: or match: in the rig file`,
          source: { file: first.file },
          count: strays.length,
        },
      ]
    : [];
  return { frames: assigned, warnings };
}

function normal(value: string | number | boolean | undefined): string {
  if (value === undefined) return '';
  const asNumber = typeof value === 'string' && value.trim() !== '' ? Number(value) : value;
  return typeof asNumber === 'number' && Number.isFinite(asNumber)
    ? String(asNumber)
    : String(value).trim().toLowerCase();
}
