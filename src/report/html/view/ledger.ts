import {
  ACCOUNT_TABLE,
  ACCOUNTS,
  atKey,
  duration,
  durationMs,
  exactDuration,
  itemAt,
  percent,
  roundToSum,
  sum,
  UNKNOWN,
  VERDICT_KINDS,
  type Account,
  type Night,
  type TrainLedger,
} from '../../../model/index.js';
import { accountArea, solidArea, type AreaStyle } from '../../design/area.js';
import { targetUpMs } from '../../figures/worth.js';
import { fitClass, textWidthPx } from '../../timeline/scale.js';
import type { ViewContext } from './context.js';
import { column, figures, words, type Row, type Table } from './table.js';

/** One part of a bar; place and width in per cent of the window. */
export interface BarPart {
  readonly x: string;
  readonly width: string;
  readonly xEnd: string;
  readonly style: AreaStyle;
  readonly title: string;
  /** Name under the part, where there is room for it. */
  readonly letter: { readonly text: string; readonly fit: string } | null;
}

export interface Bar {
  readonly label: string;
  readonly value: string;
  readonly share: string;
  readonly parts: readonly BarPart[];
}

/** What is left when the shutter was closed: where it lies in the window, and its parts enlarged to the full width. */
export interface RestBar extends Bar {
  readonly x: string;
  readonly width: string;
  readonly xEnd: string;
}

/** Where one train's dark hours went, level by level. */
export interface LedgerPicture {
  readonly train: string;
  readonly role: string;
  readonly bars: readonly Bar[];
  readonly rest: RestBar | null;
}

export interface LedgerView {
  readonly pictures: readonly LedgerPicture[];
  readonly table: Table;
  /** Whether there are too many trains for the table to stand beside the pictures. */
  readonly many: boolean;
  readonly balance: string;
  readonly balanced: boolean;
}

const SECOND = 1000;
const OPEN = VERDICT_KINDS;
const CLOSED = ACCOUNTS.filter((account) => !ACCOUNT_TABLE[account].open);

const percentOf = (ms: number, windowMs: number): string => `${((ms / windowMs) * 100).toFixed(3)}%`;

function place(fromMs: number, ms: number, windowMs: number): { x: string; width: string; xEnd: string } {
  return { x: percentOf(fromMs, windowMs), width: percentOf(ms, windowMs), xEnd: percentOf(fromMs + ms, windowMs) };
}

/** Parts laid end to end; places in shares of `wholeMs`. */
function barParts(accounts: readonly Account[], ledger: TrainLedger, wholeMs: number, named = false): BarPart[] {
  let at = 0;
  return accounts
    .filter((account) => ledger.totalsMs[account] > 0)
    .map((account) => {
      const ms = ledger.totalsMs[account];
      const { label } = ACCOUNT_TABLE[account];
      const fit = named ? fitClass(textWidthPx(label, 12), ms / wholeMs) : null;
      const part = {
        ...place(at, ms, wholeMs),
        style: accountArea(account),
        title: `${label}: ${duration(ms)}`,
        letter: fit === null ? null : { text: label, fit },
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
  const largest = [...CLOSED].sort((a, b) => ledger.totalsMs[b] - ledger.totalsMs[a]);
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
      bar('Shutter open', openMs, barParts(OPEN, ledger, whole)),
      bar('Kept', ledger.totalsMs.kept, barParts(['kept'], ledger, whole)),
    ],
    rest:
      closedMs <= 0
        ? null
        : {
            ...bar('Shutter closed, enlarged below', closedMs, barParts(largest, ledger, closedMs, true)),
            ...place(openMs, closedMs, whole),
          },
  };
}

/** The ledger as a table: one column a train, whose figures add up in whole seconds as they are shown. */
function ledgerTable(night: Night): Table {
  const windowMs = durationMs(night.sky.window);
  const shown = night.accounts.ledgers.map((ledger) => {
    const rounded = roundToSum(
      ACCOUNTS.map((account) => ledger.totalsMs[account]),
      SECOND,
    );
    return { ledger, ms: new Map(ACCOUNTS.map((account, index) => [account, itemAt(rounded, index)])) };
  });
  const row = (label: string, accounts: readonly Account[], more: Partial<Row> = {}, swatch?: AreaStyle): Row => ({
    cells: [
      words(label, { header: true, ...(swatch === undefined ? {} : { swatch }) }),
      ...shown.flatMap(({ ms }) => {
        const total = sum(accounts.map((account) => atKey(ms, account)));
        return [
          figures(exactDuration(total), total),
          figures(percent(windowMs === 0 ? null : total / windowMs), total, { className: 'share' }),
        ];
      }),
    ],
    ...more,
  });
  const used = (account: Account): boolean => shown.some(({ ms }) => atKey(ms, account) > 0);
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
      ...OPEN.map((account) => row(ACCOUNT_TABLE[account].label, [account], {}, accountArea(account))),
      row('shutter open', OPEN, { kind: 'sum' }),
      ...CLOSED.filter(used).map((account) => row(ACCOUNT_TABLE[account].label, [account], {}, accountArea(account))),
      row('shutter closed', CLOSED, { kind: 'sum' }),
    ],
    foot: [row('window', ACCOUNTS, { kind: 'total' })],
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
    balanced: off.length === 0,
    balance:
      off.length === 0
        ? `The window, ${window}, is ${exactDuration(windowMs)} long; every column adds up to it, to the ` +
          'millisecond. Shown in whole seconds, rounded so that each column adds up as printed.'
        : `The ledger does not balance: ${off.map(({ train, ms }) => `${train} is off by ${ms} ms`).join(', ')}.`,
  };
}
