import type { NightView } from '../html/view/index.js';

/** The night in a sentence, its frames, and each action of the first screen with its gain: lines of plain text. */
export function saidOf({ front, summary, tonight }: Pick<NightView, 'front' | 'summary' | 'tonight'>): string[] {
  const { actions, caution, over } = tonight;
  return [
    `${front.title}: ${summary}${front.frames === null ? '' : ` ${front.frames.text}.`}`,
    ...actions.map(({ what, win, cost, needsDarks }) => {
      const worth = win === '' ? (cost === '' ? '' : ` It cost ${cost}${over}.`) : ` Recoverable: ${win}${over}.`;
      return `tonight: ${what}${worth}${needsDarks ? ' It needs new darks.' : ''}`;
    }),
    ...(caution === undefined ? [] : [caution]),
  ];
}
