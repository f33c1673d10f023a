import {
  ACCOUNT_TABLE,
  ACCOUNTS,
  atKey,
  duration,
  durationMs,
  exactDuration,
  IDLE_PLACES,
  idleTime,
  isKeyOf,
  itemAt,
  keysOf,
  percent,
  roundToSum,
  sum,
  UNKNOWN,
  VERDICT_KINDS,
  type Account,
  type IdlePlace,
  type Night,
  type TrainLedger,
} from '../../../model/index.js';
import { accountArea, solidArea, type AreaStyle } from '../../design/area.js';
import { targetUpMs } from '../../figures/worth.js';
import { fitClass, textWidthPx } from '../../timeline/scale.js';
import type { ViewContext } from './context.js';
import { column, figures, words, type Row, type Table } from './table.js';

/** One part of a bar; position and width in per cent of the window. */
export interface BarPart {
  readonly x: string;
  readonly width: string;
  readonly xEnd: string;
  readonly style: AreaStyle;
  readonly title: string;
  /** Label below the part, if there is space. */
  readonly letter: { readonly text: string; readonly fit: string } | null;
}

export interface Bar {
  readonly label: string;
  readonly value: string;
  readonly share: string;
  readonly parts: readonly BarPart[];
}

/** The time with the shutter closed: its position in the window, and its parts enlarged to the full width. */
export interface RestBar extends Bar {
  readonly x: string;
  readonly width: string;
  readonly xEnd: string;
}

/** What one train's dark hours were spent on, level by level. */
export interface LedgerPicture {
  readonly train: string;
  readonly role: string;
  readonly bars: readonly Bar[];
  readonly rest: RestBar | null;
}

export interface LedgerView {
  readonly pictures: readonly LedgerPicture[];
  readonly table: Table;
  /** Whether there are too many trains for the table to be next to the pictures. */
  readonly many: boolean;
  /** Whether any train has another to wait for. */
  readonly hasPartners: boolean;
  readonly balance: string;
  readonly balanced: boolean;
}

const SECOND = 1000;
const OPEN = VERDICT_KINDS;

/** What has its own row: an account, or where in the night a train was idle. */
type Entry = Account | IdlePlace;

const PLACES = keysOf(IDLE_PLACES);
const CLOSED: readonly Entry[] = [...ACCOUNTS.filter((account) => !ACCOUNT_TABLE[account].open), ...PLACES];
const ENTRIES: readonly Entry[] = [...OPEN, ...CLOSED];

/** Short labels of these positions. */
const PLACE_LETTERS: Readonly<Record<IdlePlace, string>> = {
  twilight: 'too light',
  low: 'target low',
  before: 'unused before',
  after: 'unused after',
  between: 'unexplained',
};
const isPlace = (entry: Entry): entry is IdlePlace => isKeyOf(IDLE_PLACES, entry);
const labelOf = (entry: Entry): string => (isPlace(entry) ? IDLE_PLACES[entry] : ACCOUNT_TABLE[entry].label);
const areaOf = (entry: Entry): AreaStyle => accountArea(isPlace(entry) ? 'unexplained' : entry);

/** A train's time by entry, ms: unexplained time is divided by position if known. */
function entriesOf(night: Night, { train, totalsMs }: TrainLedger): Readonly<Record<Entry, number>> {
  const idle = idleTime(night, train);
  const none = { twilight: 0, low: 0, before: 0, after: 0, between: 0 };
  return idle === null ? { ...totalsMs, ...none } : { ...totalsMs, unexplained: 0, ...idle };
}

const percentOf = (ms: number, windowMs: number): string => `${((ms / windowMs) * 100).toFixed(3)}%`;

function place(fromMs: number, ms: number, windowMs: number): { x: string; width: string; xEnd: string } {
  return { x: percentOf(fromMs, windowMs), width: percentOf(ms, windowMs), xEnd: percentOf(fromMs + ms, windowMs) };
}

/** Parts laid end to end; positions as fractions of `wholeMs`. */
function barParts(
  entries: readonly Entry[],
  of: Readonly<Record<Entry, number>>,
  wholeMs: number,
  named = false,
): BarPart[] {
  let at = 0;
  return entries
    .filter((entry) => of[entry] > 0)
    .map((entry) => {
      const ms = of[entry];
      const label = labelOf(entry);
      const letter = isPlace(entry) ? PLACE_LETTERS[entry] : label;
      const fit = named ? fitClass(textWidthPx(letter, 12), ms / wholeMs) : null;
      const part = {
        ...place(at, ms, wholeMs),
        style: areaOf(entry),
        title: `${label}: ${duration(ms)}`,
        letter: fit === null ? null : { text: letter, fit },
      };
      at += ms;
      return part;
    });
}

function picture(night: Night, ledger: TrainLedger): LedgerPicture {
  const windowMs = durationMs(night.sky.window);
  const whole = Math.max(1, windowMs);
  const openMs = sum(OPEN.map((account) => ledger.totalsMs[account]));
  const closedMs = windowMs - openMs;
  const upMs = targetUpMs(night, ledger.train);
  const plain = (ms: number, title: string): BarPart[] => [
    { ...place(0, ms, whole), style: solidArea('bar'), title: `${title}: ${duration(ms)}`, letter: null },
  ];
  const bar = (label: string, ms: number, parts: readonly BarPart[]): Bar => ({
    label,
    value: duration(ms),
    share: percent(ms / whole),
    parts,
  });
  const entries = entriesOf(night, ledger);
  const largest = [...CLOSED].sort((a, b) => entries[b] - entries[a]);
  const dark =
    night.sky.almanac === null
      ? 'Window'
      : night.sky.almanac.window.kind === 'sun-minimum'
        ? 'Window, no darkness'
        : 'Darkness available';
  return {
    train: ledger.train,
    role: night.gathered.trains.find((train) => train.id === ledger.train)?.role ?? '',
    bars: [
      bar(dark, windowMs, plain(windowMs, dark)),
      upMs === null
        ? { label: 'Target up', value: UNKNOWN, share: 'not known', parts: [] }
        : bar('Target up', upMs, plain(upMs, 'Target up')),
      bar('Shutter open', openMs, barParts(OPEN, entries, whole)),
      bar('Kept', ledger.totalsMs.kept, barParts(['kept'], entries, whole)),
    ],
    rest:
      closedMs <= 0
        ? null
        : {
            ...bar('Shutter closed, enlarged below', closedMs, barParts(largest, entries, closedMs, true)),
            ...place(openMs, closedMs, whole),
          },
  };
}

/** The ledger as a table: one column per train, whose figures add up in whole seconds as displayed. */
function ledgerTable(night: Night): Table {
  const windowMs = durationMs(night.sky.window);
  const shown = night.accounts.ledgers.map((ledger) => {
    const entries = entriesOf(night, ledger);
    const rounded = roundToSum(
      ENTRIES.map((entry) => entries[entry]),
      SECOND,
    );
    return { ledger, ms: new Map(ENTRIES.map((entry, index) => [entry, itemAt(rounded, index)])) };
  });
  const row = (label: string, entries: readonly Entry[], more: Partial<Row> = {}, swatch?: AreaStyle): Row => ({
    cells: [
      words(label, { header: true, ...(swatch === undefined ? {} : { swatch }) }),
      ...shown.flatMap(({ ms }) => {
        const total = sum(entries.map((entry) => atKey(ms, entry)));
        return [
          figures(exactDuration(total), total),
          figures(percent(windowMs === 0 ? null : total / windowMs), total, { className: 'share' }),
        ];
      }),
    ],
    ...more,
  });
  const used = (entry: Entry): boolean => shown.some(({ ms }) => atKey(ms, entry) > 0);
  const single = (entry: Entry): Row => row(labelOf(entry), [entry], {}, areaOf(entry));
  return {
    caption: 'Every second of the window in one account',
    name: 'ledger',
    columns: [
      column('Account'),
      ...night.accounts.ledgers.flatMap(({ train }) => [
        column(train, 'figures'),
        { label: 'share', className: 'n share' },
      ]),
    ],
    rows: [
      ...OPEN.map(single),
      row('shutter open', OPEN, { kind: 'sum' }),
      ...CLOSED.filter(used).map(single),
      row('shutter closed', CLOSED, { kind: 'sum' }),
    ],
    foot: [row('window', ENTRIES, { kind: 'total' })],
  };
}

/** The ledger: pictures, table, and the proof that it balances. */
export function ledgerView({ night, clock }: ViewContext): LedgerView {
  const windowMs = durationMs(night.sky.window);
  const off = night.accounts.ledgers
    .map(({ train, totalsMs }) => ({ train, ms: sum(ACCOUNTS.map((account) => totalsMs[account])) - windowMs }))
    .filter(({ ms }) => ms !== 0);
  const window = `${clock.seconds(night.sky.window.startMs)} to ${clock.seconds(night.sky.window.endMs)}`;
  return {
    pictures: night.accounts.ledgers.map((ledger) => picture(night, ledger)),
    table: ledgerTable(night),
    many: night.accounts.ledgers.length > 2,
    hasPartners: night.accounts.ledgers.length > 1,
    balanced: off.length === 0,
    balance:
      off.length === 0
        ? `The window, ${window}, is ${exactDuration(windowMs)} long; every column adds up to it, to the ` +
          'millisecond. Shown in whole seconds, rounded so that each column adds up as printed.'
        : `The ledger does not balance: ${off.map(({ train, ms }) => `${train} is off by ${ms} ms`).join(', ')}.`,
  };
}
