import { IN_BRACKETS, plainWords } from '../lexicon/plain-words.js';
import { wordList } from '../lexicon/word-list.js';
import { followingOf, type Rows } from './lengths.js';

const BEGUN = wordList(
  `begin* begun start* opened since seit anfang debut* commence* depuis inicio inicia* empieza desde comeco inizi*
     comincia vanaf sinds aanvang poczat* zacat* zahaj* pocet* alku alkoi aloit* kezdet* kezd* borja* boerja* baslangic
     basla* incep* inceput* pocetak εναρξη αρχη начало початок старт 開始 开始 시작`,
);
const ENDED = wordList(
  `end ends ended ending endzeit ende endet beendet finish* closed close until fin fini* fino fine finit* final* fim
     termin* acab* hasta koniec zakoncz* konec ukonc* kraj zavrs* slut* avslut* loppu* paatty* vege vegz* befejez*
     bitis* bitti son sfarsit* tot einde eind beeindigd klaar done over τελος ληξη конец окончание кінець завершення
     終了 终了 结束 結束 종료 끝`,
);
/** Words that stand in front of anything, and say so alone. */
const FROM = /^(?:from|von|van|da|dal|dalle|de|du|od|fra|fran)$/;
const TO = /^(?:to|bis|a|al|alle|au|ate|do|til|till)$/;
/** Exposures that overlap on one side alone, at least, and how much rarer they are on the other. */
const RARER = 3;
const TWO_ROWS = 2;
/** What begins or ends at once on two trains, ms. */
const TOGETHER_MS = 2500;

/** What the title of the column with the rows' own times says that it holds. */
export function sideOfTitle(timePaths: readonly string[]): 'begin' | 'end' | null {
  const words = timePaths.map((path) => plainWords(path.replace(IN_BRACKETS, ' '))).join(' ');
  const [begun, ended] = [BEGUN.test(words) || FROM.test(words), ENDED.test(words) || TO.test(words)];
  return begun === ended ? null : begun ? 'begin' : 'end';
}

/**
 * Of which end of an exposure the rows' times are, by the night: lengths that change make exposures overlap on the
 * wrong side, and trains that wait for each other begin together; they hardly ever end so.
 */
export function sideOf(rows: Rows, seconds: readonly number[]): 'begin' | 'end' | null {
  const count = rows.lines.length;
  const begin = followingOf(rows, seconds, 'begin').overlap * count;
  const end = followingOf(rows, seconds, 'end').overlap * count;
  if (end >= TWO_ROWS && end >= RARER * begin) return 'begin';
  if (begin >= TWO_ROWS && begin >= RARER * end) return 'end';
  const own = together(rows, () => 0);
  const [after, before] = [1, -1].map((sign) => together(rows, (i) => sign * (seconds[i] ?? NaN) * 1000));
  const asBegin = own - (after ?? 0);
  const asEnd = (before ?? 0) - own;
  if (asBegin >= TWO_ROWS && own >= RARER * (after ?? 0) && asBegin > asEnd) return 'begin';
  return asEnd >= TWO_ROWS && (before ?? 0) >= RARER * own ? 'end' : null;
}

/** How often rows of two trains stand together, at times that are so far from the rows' own. */
function together({ lines, trainOf }: Rows, awayMs: (nth: number) => number): number {
  const all = lines.map((line, i) => ({ atMs: line.atMs + awayMs(i), train: trainOf(line) }));
  const sorted = all.filter(({ atMs }) => !Number.isNaN(atMs)).sort((a, b) => a.atMs - b.atMs);
  return sorted.filter(({ atMs, train }, i) => {
    const next = sorted[i + 1];
    return next !== undefined && next.train !== train && next.atMs - atMs <= TOGETHER_MS;
  }).length;
}
