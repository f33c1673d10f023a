/**
 * `nightledger replay SESSION --set key=value …`: the night run again under other rules.
 */
import { Option, type Command } from 'commander';
import {
  itemAt,
  LIMITS_SENTENCE,
  isReplayed,
  REPLAY_SETTINGS,
  warningsOf,
  type Night,
  type Replay,
  type ReplayGain,
  type ReplayOutcome,
  type WhatIf,
  ownValue,
} from '../model/index.js';
import type { Context } from './context.js';
import { checkDate } from './dates.js';
import { UsageError } from './exit-codes.js';
import { sessionFolder } from './folders.js';
import { nightsOf } from './nights.js';
import { columnsOf, wrapped } from './wrap.js';
import { starsOption, type StarsOption } from './star-measuring.js';
import { untrustedOption } from './untrusted.js';

interface ReplayOptions {
  readonly set?: readonly string[];
  readonly night?: string;
  readonly rig?: string;
  readonly stars: StarsOption;
  readonly untrusted?: boolean;
  readonly json?: boolean;
  readonly quiet?: boolean;
}

const EXAMPLES = `
Examples:
  nightledger replay ~/nights/2026-10-14                                       the standard what-ifs
  nightledger replay ~/nights/2026-10-14 --set dither-every=5
  nightledger replay ~/nights/2026-10-14 --set exposure.wren=300 --set focus=together
  nightledger replay ~/nights/2026-10-14 --set dither-every=4 --json           for other programs
`;

/** Adds the command. */
export function addReplay(program: Command, context: Context): void {
  program
    .command('replay')
    .description(
      'Simulate a night again under other rules, with its own measured durations, and show what they would have kept.',
    )
    .argument('<session>', 'folder with the frames and logs of the night')
    .addOption(
      new Option('-s, --set <key=value>', 'a rule to change; may be repeated').argParser(
        (text: string, before?: readonly string[]) => [...(before ?? []), text],
      ),
    )
    .option('--night <date>', 'the night of this evening, YYYY-MM-DD, if the folder holds several')
    .option('--rig <file>', 'use this rig file instead of the one in the session folder')
    .addOption(starsOption())
    .addOption(untrustedOption())
    .option('--json', 'print JSON instead of a table')
    .option('-q, --quiet', 'print only the result and errors')
    .addHelpText('after', `\nSettings:\n${SETTINGS.join('\n')}\n${EXAMPLES}`)
    .action(async (session: string, options: ReplayOptions) => {
      const messages = context.messages(options);
      checkDate('--night', options.night);
      const root = sessionFolder(session);
      const { replayWith } = await import('../pipeline.js');
      const { nights } = await nightsOf(
        { kind: 'session', folder: root },
        { rig: options.rig, stars: options.stars, untrusted: options.untrusted },
        context,
        messages,
      );
      const night = chosenNight(nights, options.night, session);
      messages.warnings(warningsOf(night));
      if (!isReplayed(night.replay))
        throw new Error(`the night cannot be replayed: it lacks ${night.replay?.missing ?? 'lights'}`);
      const own = options.set === undefined ? null : replayWith(night, options.set);
      if (own && 'missing' in own) throw new Error(`the night cannot be replayed: it lacks ${own.missing}`);
      if (own && 'problems' in own) {
        throw new UsageError(own.problems.join('; '), ['The settings are:', ...SETTINGS]);
      }
      if (options.json) context.answer(asJson(night, night.replay, own));
      else context.answer(wrapped(asTable(night, night.replay, own, context.columns), context.columns));
    });
}

const SETTINGS = REPLAY_SETTINGS.map(({ usage, meaning }) => `  ${usage.padEnd(34)}${meaning}`);

function chosenNight(nights: readonly Night[], wanted: string | undefined, session: string): Night {
  const found = nights.map((n) => n.date).join(', ');
  const [first, ...others] = nights;
  if (!first) throw new Error(`${session} holds no lights and no logged exposures: nothing to replay`);
  if (wanted === undefined) {
    if (others.length > 0) throw new UsageError(`${session} holds the nights ${found}; choose one with --night`);
    return first;
  }
  const night = nights.find((n) => n.date === wanted);
  if (!night) throw new Error(`${session} holds no night of ${wanted}; it holds ${found}`);
  return night;
}

/** Rules under one another, their figures in columns; a terminal that is too narrow for those has a block a rule. */
function asTable(night: Night, replay: Replay, own: WhatIf | null, columns = Infinity): string {
  const ids = Object.keys(replay.actualKeptMs);
  const head = [
    '',
    'gain',
    '10 to 90 %',
    ...ids.flatMap((id) => [`${id} kept`, 'lost or doubtful frames', 'waited']),
    'dithers',
  ];
  const row = (title: string, outcome: ReplayOutcome, gain: ReplayGain | null): string[] => [
    title,
    gain ? minutes(gain.meanMs, true) : '',
    gain ? `${minutes(gain.lowMs, true)} … ${minutes(gain.highMs, true)}` : '',
    ...ids.flatMap((id) => {
      const tally = ownValue(outcome.trains, id);
      return tally
        ? [minutes(tally.keptMs), tally.lostOrDoubtfulFrames.toFixed(1), minutes(tally.waitedMs)]
        : ['', '', ''];
    }),
    outcome.dithers.toFixed(0),
  ];
  const asked = own
    ? [own]
    : [...replay.whatIfs, ...(replay.best ? [{ ...replay.best, title: `best together: ${replay.best.title}` }] : [])];
  const rows = [head, row('as it was', replay.baseline, null), ...asked.map((w) => row(marked(w), w.outcome, w.gain))];
  const widths = head.map((_, i) => Math.max(...rows.map((cells) => columnsOf(itemAt(cells, i)))));
  const lines = rows.map((cells) =>
    cells
      .map((cell, i) => {
        const room = ' '.repeat(itemAt(widths, i) - columnsOf(cell));
        return i === 0 ? `${cell}${room}` : `${room}${cell}`;
      })
      .join('  ')
      .trimEnd(),
  );
  const notes = [
    ...asked.flatMap((w) => (own !== null && w.note !== undefined ? [w.note] : [])),
    ...asked.flatMap((w) => (w.outside.length > 0 ? [`* ${w.title}: ${w.outside.join('; ')}.`] : [])),
    ...(asked.some(({ outside }) => outside.length > 0) ? [LIMITS_SENTENCE] : []),
    ...asked.flatMap((w) =>
      w.newDarks.length > 0 ? [`+ ${w.title}: needs new darks, ${w.newDarks.join(', ')}.`] : [],
    ),
  ];
  return `${[
    `Night of ${night.date}, minutes unless it says frames; means of ${replay.runs} runs with resampled durations.`,
    errorLine(replay),
    ...replay.rules.map((r) => `  ${r.name}: ${r.value} (${r.certainty})`),
    '',
    ...(lines.some((line) => columnsOf(line) > columns) ? asBlocks(rows) : lines),
    ...(notes.length > 0 ? ['', ...notes] : []),
  ].join('\n')}\n`;
}

/** Each row as its title with its figures below, each behind its column's head. */
function asBlocks([head, ...rows]: readonly (readonly string[])[]): string[] {
  return rows.flatMap(([title, ...cells]) => [
    title ?? '',
    `  ${cells.flatMap((cell, i) => (cell === '' ? [] : `${head?.[i + 1]}: ${cell}`)).join(', ')}`,
  ]);
}

/** With a star if outside the limits, a cross if it needs darks of a new length. */
function marked({ title, outside, newDarks }: WhatIf): string {
  return `${title}${outside.length > 0 ? ' *' : ''}${newDarks.length > 0 ? ' +' : ''}`;
}

function errorLine({ errorShare, confidence, doubts }: Replay): string {
  const error =
    errorShare === null
      ? 'cannot be checked: nothing was kept'
      : `is off by ${(Math.abs(errorShare) * 100).toFixed(1)} %`;
  return (
    `The replay of the night’s own rules ${error}; confidence ` +
    `${confidence}.${doubts.map((d) => ` ${d[0]?.toUpperCase() ?? ''}${d.slice(1)}.`).join('')}`
  );
}

/** `12.4`, `−3.0`; with a sign in front of a gain. */
function minutes(ms: number, signed = false): string {
  const text = (Math.abs(ms) / 60_000).toFixed(1);
  const sign = Number(text) === 0 ? '' : ms < 0 ? '−' : signed ? '+' : '';
  return `${sign}${text}`;
}

function asJson(night: Night, replay: Replay, own: WhatIf | null): string {
  const asked = own ? { whatIfs: [own], best: null } : {};
  return `${JSON.stringify({ night: night.date, ...replay, ...asked }, null, 2)}\n`;
}
