import { IN_BRACKETS, plainWords } from './plain-words.js';
import { wordList } from './word-list.js';

const BEGUN = wordList(
  `begin* begun start* opened since seit anfang debut* commence* depuis inicio inicia* empieza desde comeco inizi*
     comincia vanaf sinds aanvang poczat* zacat* zahaj* pocet* alku alkoi aloit* kezdet* kezd* borja* boerja*
     baslangic
     basla* incep* inceput* pocetak εναρξη αρχη начало початок старт 開始 开始 시작`,
);
const ENDED = wordList(
  `end ends ended ending stop stops stopped stopp* endzeit ende endet beendet finish* closed close until fin
     fini* fino fine finit*
     final* fim termin* acab* hasta koniec zakoncz* konec ukonc* kraj zavrs* slut* avslut* loppu* paatty* vege
     vegz* befejez*
     bitis* bitti son sfarsit* tot einde eind beeindigd klaar done over τελος ληξη конец окончание кінець завершення
     終了 终了 结束 結束 종료 끝`,
);
/** Words that can precede anything, and mean this on their own. */
const FROM = /^(?:from|von|van|da|dal|dalle|de|du|od|fra|fran)$/;
const TO = /^(?:to|bis|a|al|alle|au|ate|do|til|till)$/;

/** Which end the names of the fields with the rows' own times indicate; `null` if neither or both. */
export function sideOfTitle(timePaths: readonly string[]): 'begin' | 'end' | null {
  const words = timePaths.map((path) => plainWords(path.replace(IN_BRACKETS, ' '))).join(' ');
  const [begun, ended] = [BEGUN.test(words) || FROM.test(words), ENDED.test(words) || TO.test(words)];
  return begun === ended ? null : begun ? 'begin' : 'end';
}
