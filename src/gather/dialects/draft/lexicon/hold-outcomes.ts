import type { EventName } from '../../../../model/index.js';
import type { Motion } from './motions.js';
import { PAUSE, UNSAFE } from './parked-words.js';
import { wordList } from './word-list.js';

/** The cause of a hold is lifted. */
const LIFTED = wordList(
  'lifted aufgehoben levee? leves? levantad[ao] revocat[ao] revogad[ao] opgeheven zniesion* zrusen* 解除 해제',
);

/** It is named explicitly. */
const NAMED = wordList(
  'hold pause wait delay standby warten wartezeit wartepause attente attesa espera wachttijd oczekiwani* cekani',
);

const OVER = wordList(
  'finished finishes end ended ends ende over done beendet vorbei zu_ende fertig fini* termin* acab* finit* ' +
    'voorbij klaar koniec konec',
);

/** Whether words say that something is over. */
export function isOver(words: string): boolean {
  return OVER.test(words);
}

/** Holds are inverted: what closes or stops begins one, what opens or clears ends it. */
export function holdOutcomes(words: string, motions: ReadonlySet<Motion>): [EventName, number][] {
  const has = (...names: Motion[]): boolean => names.some((name) => motions.has(name));
  if (LIFTED.test(words)) return [['hold-end', 1.6]];
  if (has('wait')) return has('stop', 'resume') ? [['hold-end', 1.6]] : [['hold-begin', 1.6]];
  // `Hold (clouds) finished`, `pause for rain over`: the hold is over, whatever it was for.
  const behind = words.slice(Math.max(0, NAMED.indexIn(words)));
  if (NAMED.test(words) && OVER.test(behind) && !has('start', 'close')) return [['hold-end', 1.4]];
  if (UNSAFE.test(words)) return [['hold-begin', 1.6]];
  // `Pause over`: the pause has ended, whatever it was for.
  if (has('pause') && has('stop') && !has('danger', 'close')) return [['hold-end', 1.4]];
  // A pause is opened and closed like a record; a roof is not.
  if (PAUSE.test(words) && !has('danger', 'clear', 'resume') && has('open') !== has('close'))
    return [[has('open') ? 'hold-begin' : 'hold-end', 1.2]];
  if (has('clear', 'resume', 'open') && !has('close')) return [['hold-end', 1.6]];
  if (has('danger', 'close', 'pause')) {
    // `Hold over`: the pause itself has ended.
    if (has('stop', 'did') && has('pause') && !has('danger', 'close')) return [['hold-end', 1.2]];
    return [['hold-begin', 1.5]];
  }
  if (has('start')) return [['hold-begin', 0.9]];
  if (has('stop'))
    return [
      ['hold-end', 0.6],
      ['hold-begin', 0.6],
    ];
  return [
    ['hold-begin', 0.2],
    ['hold-end', 0],
  ];
}
