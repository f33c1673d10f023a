import { calibrationOf, filterMeant, filterRow, type Night } from '../../model/index.js';

/** How a filter looks throughout one report. */
export interface FilterStyle {
  /** The name in headers and logs; empty when none is known. */
  readonly name: string;
  /** The name for reading: `no filter named` when empty. */
  readonly label: string;
  /** A few characters for narrow spaces. */
  readonly short: string;
  /** Name of the colour token. */
  readonly colour: string;
}

const OTHER_COLOURS = 6;
const SHORT_LENGTH = 4;

/** A small stable hash (FNV-1a, 32 bit): the same name has the same colour on every night. */
function hash(text: string): number {
  let value = 0x811c9dc5;
  for (const unit of text) value = Math.imul(value ^ (unit.codePointAt(0) ?? 0), 0x01000193) >>> 0;
  return value;
}

function shorten(name: string): string {
  const characters = [...name.trim()];
  return characters.length <= SHORT_LENGTH ? characters.join('') : `${characters.slice(0, SHORT_LENGTH - 1).join('')}…`;
}

/**
 * Styles for a set of filter names. Common filters have their natural colours; others get one of six, by a hash of the
 * name, or the next free one if two names of the same night collide.
 */
export function styleFilters(names: Iterable<string>): ReadonlyMap<string, FilterStyle> {
  const styles = new Map<string, FilterStyle>();
  const taken = new Set<number>();
  for (const name of [...new Set(names)].sort()) {
    const known = filterMeant(name);
    const own = known === null ? null : filterRow(known).colour;
    if (known !== null && own !== null) {
      styles.set(name, { name, label: name, short: known, colour: `filter-${own}` });
      continue;
    }
    let slot = hash(name.trim().toLowerCase()) % OTHER_COLOURS;
    for (let tries = 0; taken.has(slot) && tries < OTHER_COLOURS; tries++) slot = (slot + 1) % OTHER_COLOURS;
    taken.add(slot);
    styles.set(name, {
      name,
      label: name === '' ? 'no filter named' : name,
      short: name === '' ? '—' : shorten(name),
      colour: `filter-other-${slot + 1}`,
    });
  }
  return styles;
}

/** Lookup for a night's pictures: filters by name, trains by id. */
export interface Palette {
  filter(name: string | undefined): FilterStyle;
  /** Colour token of a train: the pilot has the first. */
  train(id: string): string;
}

const TRAIN_COLOURS = 4;

type Aim = Pick<Night['gathered']['goals'][number], 'goals'>;

/** Filters named by a target's goals, imaged or not. */
function goalFilters({ goals }: Aim): string[] {
  const perTrain = Object.values(goals.perTrain).flatMap((hours) => Object.keys(hours));
  return [...Object.keys(goals.hours), ...perTrain, ...Object.keys(goals.ratio?.parts ?? {})];
}

/** The palette of one night, and of goals from elsewhere. */
export function paletteOf(night: Night, goals: readonly Aim[] = []): Palette {
  const frames = [...night.accounts.lights, ...calibrationOf(night)].map((frame) => frame.filter ?? '');
  const totals = night.accounts.totals.map((total) => total.filter);
  return paletteFor(
    [...frames, ...totals, ...[...night.gathered.goals, ...goals].flatMap(goalFilters)],
    night.gathered.trains.map((train) => train.id),
  );
}

/**
 * A palette for these filters and trains.
 *
 * @param trains ids, pilots first
 */
export function paletteFor(filters: Iterable<string>, trains: readonly string[]): Palette {
  const styles = styleFilters(['', ...filters]);
  const fallback = styles.get('');
  if (fallback === undefined) throw new RangeError('the style of an unnamed filter is missing');
  return {
    filter: (name) => styles.get(name ?? '') ?? fallback,
    train: (id) => `train-${(Math.max(0, trains.indexOf(id)) % TRAIN_COLOURS) + 1}`,
  };
}
