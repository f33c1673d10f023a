/** From nights to a tree for stacking: which file goes where. Nothing is touched. */
import { distinctNames, safeFileName, safeName } from '../files/safe-name.js';
import { lackingFor, settingNames } from './settings.js';
import {
  calibrationFor,
  calibrationOf,
  groupBy,
  type CalibrationKind,
  type Frame,
  type JudgedFrame,
  type Night,
  type Verdict,
} from '../model/index.js';

/** What a file is in the tree. */
export type PlacedAs = Exclude<Verdict, 'lost'> | CalibrationKind;

/** One file of the session and its destination. */
export interface Placement {
  /** Relative to the session folder, forward slashes. */
  readonly source: string;
  /** Folder in the tree, forward slashes: `NGC-281/Ha/heron/300s`, `NGC-281/Ha/heron/300s/darks`. */
  readonly folder: string;
  /** Name valid on every system; if the folder holds another file of that name, a variant. */
  readonly name: string;
  readonly as: PlacedAs;
}

/** The plan for one night's files. */
export interface NightPlan {
  readonly night: string;
  readonly placements: readonly Placement[];
  /** Lost frames with files: they stay in place. */
  readonly rejected: readonly string[];
  /** Logged lights without a file. */
  readonly neverWritten: number;
  /** Darks and flats missing in the session for frames to stack, in words. */
  readonly lacking: readonly string[];
}

/** Folders next to the kept frames. */
const FOLDERS: Readonly<Record<PlacedAs, string>> = {
  kept: '',
  doubtful: '/doubtful',
  dark: '/darks',
  flat: '/flats',
  bias: '/bias',
  'dark-flat': '/dark-flats',
};

type Filed<T extends Frame> = T & { readonly file: string };
const isFiled = <T extends Frame>(frame: T): frame is Filed<T> => frame.file !== undefined;

/** Plans a night. The same night gives the same plan. */
export function planNight(night: Pick<Night, 'date' | 'accounts' | 'timeline'>): NightPlan {
  const lights = night.accounts.lights.filter(isFiled);
  const wanted = lights.filter(({ verdict }) => verdict !== 'lost');
  const folder = foldersOf(wanted);
  const calibration = calibrationOf(night).filter(isFiled);
  const placements = [...groupBy(wanted, folder)].flatMap(([home, group]) => [
    ...group.map((light) => placed(light, home, light.verdict === 'doubtful' ? 'doubtful' : 'kept')),
    ...matching(group, calibration).map(({ frame, as }) => placed(frame, home, as)),
  ]);
  return {
    night: night.date,
    placements,
    rejected: lights.filter(({ verdict }) => verdict === 'lost').map(({ file }) => file),
    neverWritten: night.accounts.lights.length - lights.length,
    lacking: lackingFor(wanted, night),
  };
}

function placed({ file }: { readonly file: string }, home: string, as: PlacedAs): Placement {
  return { source: file, folder: `${home}${FOLDERS[as]}`, name: safeFileName(file.split('/').at(-1) ?? file), as };
}

/** `TARGET/FILTER/TRAIN/LENGTH` of each light; names that differ only in what file systems ignore get numbers. */
function foldersOf(lights: readonly Frame[]): (frame: Frame) => string {
  const names = (of: (frame: Frame) => string, otherwise: string): ReadonlyMap<string, string> =>
    distinctNames(lights.map(of), (key) => safeName(key, otherwise));
  const target = (frame: Frame): string => frame.target ?? '';
  const filter = (frame: Frame): string => frame.filter ?? '';
  const train = (frame: Frame): string => frame.train;
  const targets = names(target, 'no-target');
  const filters = names(filter, 'no-filter');
  const trains = names(train, 'train');
  const setting = settingNames(lights);
  return (frame) =>
    [targets.get(target(frame)), filters.get(filter(frame)), trains.get(train(frame)), setting(frame)].join('/');
}

/** Calibration frames that match any light of a folder, each once. */
function matching<T extends Frame>(
  lights: readonly JudgedFrame[],
  calibration: readonly T[],
): { readonly frame: T; readonly as: CalibrationKind }[] {
  const found = new Map<T, CalibrationKind>();
  for (const [kind, frames] of calibrationFor(lights, calibration)) for (const frame of frames) found.set(frame, kind);
  return [...found].map(([frame, as]) => ({ frame, as }));
}
