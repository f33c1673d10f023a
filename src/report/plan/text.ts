/** The plan as text, to be read in a terminal or copied by hand. */
import {
  CAUTION,
  decimal,
  duration,
  durationMs,
  percent,
  type Plan,
  type PlannedBlock,
  type PlannedNight,
} from '../../model/index.js';
import { dateText } from '../progress/dates.js';
import { freeText, inOrder } from './free.js';
import {
  briefOf,
  comingOf,
  ditherOf,
  exposuresOf,
  LEFT_CAPTION,
  leftText,
  nothingText,
  notesOf,
  skyOf,
  spanOf,
  stillNeeded,
  timeOf,
  zoneText,
  type TimeText,
} from './wording.js';

/** The first night in full, the others with one line per block. */
export function planText(plan: Plan): string {
  const tonight = plan.nights[0];
  const { nights: coming, after } = comingOf(plan);
  const time = timeOf(plan);
  return [
    `Plan for ${dateText(plan.from)}${plan.site === null ? '' : `, ${plan.site}`}; ${zoneText(plan)}`,
    ...(tonight ? nightLines(plan, tonight, time) : []),
    ...(tonight && tonight.blocks.length > 0 ? ['', CAUTION] : []),
    ...(coming.length > 0 ? ['', 'The nights after it, each planned as if all before it were clear:'] : []),
    ...coming.flatMap((night) => [
      `  ${dateText(night.date)}, Moon ` +
        `${percent(night.moonIllumination)}${night.window === null ? ': it does not get dark' : ''}`,
      ...inOrder(night.blocks, night.free).map((one) =>
        'block' in one ? `    ${briefOf(one.block, time)}` : `    ${spanOf(one.free, time)} ${freeText(one.free)}`,
      ),
    ]),
    ...(after === null ? [] : ['', after]),
    ...(plan.left.length === 0 ? [] : ['', LEFT_CAPTION]),
    ...plan.left.map(
      ({ target, filter, train, lacksHours, why }) =>
        `  ${target} ${filter ?? 'any filter'}${train === null ? '' : ` on ${train}`}: ` +
        `${stillNeeded(lacksHours)}, ${leftText(why)}`,
    ),
    '',
    ...plan.assumptions.map((one) => `- ${one}`),
    '',
  ].join('\n');
}

function nightLines(plan: Plan, night: PlannedNight, time: TimeText): string[] {
  const { window, blocks, free, lines } = night;
  if (blocks.length === 0 || window === null) return ['', nothingText(plan)];
  return [
    `Dark from ${time(window.startMs)} to ${time(window.endMs)}, Moon ${percent(night.moonIllumination)}`,
    ...inOrder(blocks, free).flatMap((one) =>
      'block' in one ? blockLines(one.block, night, time) : ['', `${spanOf(one.free, time)}  ${freeText(one.free)}`],
    ),
    '',
    'If the night is clear:',
    ...lines.map(
      ({ target, filter, train, addsHours, lacksHours }) =>
        `  ${target} ${filter ?? 'any filter'}${train === null ? '' : ` on ${train}`}: ` +
        `adds ${decimal(addsHours, 1)} h; ` +
        (lacksHours < 0.05 ? stillNeeded(lacksHours) : `then still needs ${stillNeeded(lacksHours)}`),
    ),
  ];
}

function blockLines(block: PlannedBlock, night: PlannedNight, time: TimeText): string[] {
  return [
    '',
    `${spanOf(block, time)}  ${block.target} (${duration(durationMs(block.span))}); ` +
      `${skyOf(block, night, time).join('; ')}`,
    ...block.trains.map((train) => `  ${train.train}: ${[exposuresOf(train), ...notesOf(train, time)].join('; ')}`),
    `  dither ${ditherOf(block).join('; ')}`,
  ];
}
