import type { EventName } from '../../../../model/index.js';
import type { Motion } from './motions.js';
import { PAUSE, SUSPENDED } from './parked-words.js';
import { plainWords } from './plain-words.js';
import { wordList } from './word-list.js';
import { SUBJECTS, type SubjectId } from './subjects.js';
import { isReadyToDither } from './main-clause.js';

/** What a camera does as soon as its shutter has closed. */
const READOUT = wordList(
  `readout read_out reading_out reading_it_out reads_out being_read download* auslesen ausgelesen auslese* liest_aus
     lese_(?:[a-z]+_)*aus lecture_(?:du|de_l) lit_le_capteur lecture_capteur leyendo_el lectura_del? descarga*
     lettura_(?:del|sensore)
     legge_il_sensore leitura_do a_ler_o uitlezen uitgelezen leest_uit odczyt* wyczyt* vycit* vycten* 読み出し 読出し 読み出 読出
     读出 讀出 laser_ut utlas* leser_ut utles* udlaes* laeser_ud`,
);
/** The same as the name of a camera's state, where shorter words will do. */
const READS = wordList(
  `read reads reading lesen liest lecture lit lectura lee leyendo lettura legge leitura leest lezen czyta cte cteni`,
);
const READ_OUT = 2.8;
const HAS_BEEN_READ = 1;
/** The other of two trains. */
const OTHER_TRAIN = wordList(
  `other_(?:train|one|camera|scope|telescope|side|tube|rig) the_other anderen? andere_(?:kamera|zug|seite) anderer
     autre l_autre
     otro otra altro altra outro outra andere_(?:camera|trein|kijker) drug(?:i|iego|a) druh(?:y|eho|a|ou) 相手 もう一方 他方
     另一 对方`,
);
const FOR_OTHER = 2.6;
const READY_TO_DITHER = 4.4;
/** Named when a train is ready for something else. */
const OF_OTHERS: readonly SubjectId[] = ['focus', 'filter', 'slew', 'flip', 'centre', 'settling', 'exposure', 'hold'];
const namesOther = (words: string): boolean =>
  SUBJECTS.some(({ id, strong }) => OF_OTHERS.includes(id) && strong.test(words));
export const AGAIN = wordList(
  'again wieder de_nouveau otra_vez di_nuovo outra_vez weer znowu? opet zase znovu 再び 又',
);
const CLEAR_AGAIN = 1.8;
/** `Pause.`, `End of the pause.`: nothing else is named. */
const PAUSE_ALONE = 2;

/** Whether a state of a camera that exposes in another is that in which the frame is read out. */
export function isReadingOut(state: string): boolean {
  const words = plainWords(state);
  return READOUT.test(words) || READS.test(words);
}

/** The evidence of lines with a specific expression, `null` if there is none. */
export function saidAtOnce(
  words: string,
  motions: ReadonlySet<Motion>,
  isNamed: (id: SubjectId) => boolean,
): Map<EventName, number> | null {
  if (READOUT.test(words) && !isNamed('frame'))
    return new Map([['exposure-end', motions.has('stop') || motions.has('did') ? HAS_BEEN_READ : READ_OUT]]);
  // One shutter may be open for longer than the other: the train that has finished waits for the next dither.
  if (motions.has('wait') && OTHER_TRAIN.test(words) && !isNamed('settling') && !isNamed('focus'))
    return new Map([['dither-ready', FOR_OTHER]]);
  if (isReadyToDither(words) && !namesOther(words)) return new Map([['dither-ready', READY_TO_DITHER]]);
  const namesNothing = !SUBJECTS.some(({ id }) => id !== 'noise' && id !== 'session' && isNamed(id));
  if (namesNothing && motions.has('clear') && (motions.has('resume') || AGAIN.test(words)))
    return new Map([['hold-end', CLEAR_AGAIN]]);
  if (namesNothing && (SUSPENDED.test(words) || (motions.has('pause') && PAUSE.test(words))))
    return new Map([[motions.has('stop') || motions.has('resume') ? 'hold-end' : 'hold-begin', PAUSE_ALONE]]);
  return null;
}
