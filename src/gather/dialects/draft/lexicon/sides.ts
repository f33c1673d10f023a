import { IN_BRACKETS, plainWords } from './plain-words.js';
import { wordList } from './word-list.js';

const BEGUN = wordList(
  `beg begin* began begun begann begon start* opened since seit anf anfang deb debut* commence* depuis ini inic inicio
     inicia* empieza desde comeco inizi*
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
/** The middle of an exposure, as observers of variable stars note it. */
const MIDDLE = wordList(
  `mid mid_exposure midpoint middle mitte mittel* milieu medio punto_medio meta mitad meio meio_da midden halverwege
     srodek srodk* stred stredu mitten midt sredin* mijloc mijlocul 中央 中点 中间 중간`,
);

/** Whether the names of the fields with the rows' own times indicate the middle of what they are about. */
export function isMiddle(timePaths: readonly string[]): boolean {
  return MIDDLE.test(timePaths.map((path) => plainWords(path)).join(' '));
}

/** Words that can precede anything, and mean this on their own. */
const FROM = /^(?:from|von|van|da|dal|dalle|de|du|od|fra|fran)$/;
const TO = /^(?:to|bis|a|al|alle|au|ate|do|til|till)$/;

/** Which end the names of the fields with the rows' own times indicate; `null` if neither or both. */
export function sideOfTitle(timePaths: readonly string[]): 'begin' | 'end' | null {
  const words = timePaths.map((path) => plainWords(path.replace(IN_BRACKETS, ' '))).join(' ');
  const [begun, ended] = [BEGUN.test(words) || FROM.test(words), ENDED.test(words) || TO.test(words)];
  return begun === ended ? null : begun ? 'begin' : 'end';
}

/** What is planned or due happens when it can: these times are of nothing that happened. */
const PLANNED_WORDS = `due planned plan schedul* expected eta geplant soll prevu* planifi* previst* programad*
     pianificat* programmat* planowan* zaplanowan* planovan* naplanovan* gepland 予定 计划 計劃 예정`;
const PLANNED = wordList(PLANNED_WORDS);

/** What is asked for, planned or due has not happened then; a train that asks for a dither is ready for it. */
const ASKED = wordList(
  `${PLANNED_WORDS}
     asked request* queued queue submitted ordered order wanted angefordert gefordert bestellt beauftragt
     demand* commande* pedid* solicitad* encarg* richiest* zlecon* zadan* pozadovan* gevraagd aangevraagd
     要求 依頼 受付 请求 請求 요청`,
);

/** Whether a column is titled as the time for which something was planned. */
export function saysPlanned(title: string): boolean {
  return PLANNED.test(plainWords(title));
}

/** Whether a column is titled as the time at which something was asked for or planned. */
export function saysAsked(title: string): boolean {
  return ASKED.test(plainWords(title));
}
