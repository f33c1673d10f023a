import type { Slot } from './kinds/kind.js';
import { wordList, type WordList } from './lexicon/word-list.js';

/** How long something took, as a noun and as a verb: Spanish and Italian, Nordic, and Asian languages. */
export const OF_LENGTH = 'dura varighed varighet varaktighet kesto idotartam trajanje длительность тривалість διαρκεια';
const HAS_LASTED = 'dura varede varte varade kesti tartott trajalo surdu длилось тривало διηρκεσε';

/** Seconds, after a number and before it. */
export const SECONDS_AFTER = wordList(
  's sec secs second seconds segundo* sekund* seconde* second* secondi 秒(?!角) 초(?!각)',
);
export const SECONDS_BEFORE = wordList(
  `${OF_LENGTH} ` +
    'dur duration len length second* sec secs exp exptime segundo* sekund* dauer duree duracion durata ' +
    'duracao duur czas lange lengte longueur lunghezza longitud dlugosc delka hossz* exposure 秒(?!角) 초(?!각) 曝光 露光 노출 time_open',
);

/** How long an exposure is, in the name of a column with its unit. */
export const EXPOSED = wordList(
  'pose poses posa pose_time exp exp[ou]* ekspo* expozic* bel belicht* integr* osvit* naswiet* osvetl* sub subs 露光 曝光',
);

/** Words that only describe an elapsed duration: a number after them needs no unit. */
export const LASTED = wordList(
  `${HAS_LASTED} ` +
    'dt trwani* took lasted lasting lasts dauernd elapsed tardo duro trwal* zajal* trval* dauerte duree durata ' +
    'durou levou duurde trwalo trva trwa zajelo trvalo 用时 用時 耗时 所要 걸린 소요',
);

/** After the state that is left: `Ha to SII`, `3.1 > 2.4`. */
export const FROM_TO = /^(?:->|→|>|=>|to|zu|nach|a|vers|naar|na|auf|を|から|→)$/iu;

/** Whether one of the nearest words before a slot is one of these. */
export function near(slot: Slot, words: WordList, depth = 2): boolean {
  return slot.before.slice(0, depth).some((word) => words.test(word));
}

const OF_ARC = wordList('arc* bogen* boog* arco luku oblouku');

/** Whether a number is in arcseconds, or another angle. */
export function isOfArc(slot: Slot): boolean {
  return OF_ARC.test(slot.after) || (near(slot, OF_ARC) && !SECONDS_AFTER.test(slot.after));
}
