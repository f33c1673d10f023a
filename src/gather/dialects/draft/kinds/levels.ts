import type { Kind } from './kind.js';

/** Log level names. Only in a column of such words: `fin` means fine there, not an end. */
const LEVELS = new Set(
  `info information informacja informace informazione informacion informacao inf infos infor note notice hinweis
   hinw melding uwaga aviso avviso avis nota warn warning warnung warnings wrn waarschuwing ostrzezenie ostrzeżenie
     varovani
   varování attenzione atencion atención atencao atenção attention achtung alert alerte alarm allarme alarme advertencia
   pozor err error erreur errore erro fehler fout blad błąd chyba fel fatal critical crit severe panic kritisch
   debug dbg trace trc fine finer finest detail details detalle dettaglio detalhe détail szczegół podrobnost verbose
     verb
   情報 警告 注意 詳細 エラー 異常 信息 调试 错误 提示`.split(/\s+/),
);

/** Whether a word is a log level, and names nothing. */
export function isLevel(word: string): boolean {
  return LEVELS.has(word.toLowerCase());
}

const DETAILS = new Set(
  `debug dbg trace trc fine finer finest fin detail details detalle dettaglio detalhe détail szczegół podrobnost verbose
   verb 詳細 调试 d t v`.split(/\s+/),
);
const LETTERS = /^[IWEDTVNFC]$/;
/** The level is one of the first words. */
const COLUMNS = 3;
const LONGEST = 14;
/** Maximum number of different words in its column, and of unknown ones among them. */
const MOST = 8;
const UNKNOWN = 2;
/** Minimum fraction of lines with known levels. */
const KNOWN = 0.5;
/** Dates, titles and continuation lines have no level: maximum fraction of lines with other words in its column. */
const WITHOUT = 0.06;

/** The kinds without their level word: `suivi/fin`, `Detail`. Debug lines are marked as such. */
export function withoutLevels(kinds: readonly Kind[]): readonly Kind[] {
  const heads = kinds.map(({ wording }) => [...wording.slice(0, 80).matchAll(/\p{L}+/gu)].slice(0, COLUMNS));
  const found = Array.from({ length: COLUMNS }, (_, i) => i).flatMap((column) => {
    const levels = levelsIn(kinds, heads, column);
    return levels === null ? [] : [{ column, levels }];
  })[0];
  if (found === undefined) return kinds;
  const { column, levels } = found;
  return kinds.map((kind, i) => {
    const word = heads[i]?.[column];
    if (word === undefined || !levels.has(word[0])) return kind;
    const [text] = word;
    // The `heron` of `camd-heron` is in the level position, but is the second half of a name.
    if (!isLevel(text) && /\p{L}[-_]$/u.test(kind.wording.slice(0, word.index))) return kind;
    const front = kind.wording.slice(0, word.index).replace(/[[(<{/|.:-]$/u, '');
    const back = kind.wording.slice(word.index + text.length).replace(/^[\])>}/|.:-]+/u, '');
    const wording = (front === '' ? back.trimStart() : `${front}${back}`).trimStart();
    const gone = kind.wording.length - wording.length;
    return {
      ...kind,
      wording,
      lead: word.index < kind.lead ? Math.max(0, kind.lead - gone) : kind.lead,
      ...(DETAILS.has(text.toLowerCase()) ? { isDetail: true } : {}),
    };
  });
}

/** The words in the level column, if there is one; otherwise `null`. */
function levelsIn(
  kinds: readonly Kind[],
  heads: readonly RegExpExecArray[][],
  column: number,
): ReadonlySet<string> | null {
  const counts = new Map<string, { lines: number; kinds: number }>();
  let total = 0;
  for (const [i, { count }] of kinds.entries()) {
    const word = heads[i]?.[column]?.[0] ?? '';
    total += count;
    const own = counts.get(word) ?? { lines: 0, kinds: 0 };
    counts.set(word, { lines: own.lines + count, kinds: own.kinds + 1 });
  }
  counts.delete('');
  const linesOf = (words: readonly string[]): number =>
    words.reduce((sum, word) => sum + (counts.get(word)?.lines ?? 0), 0);
  const all = [...counts.keys()];
  // Single letters: most lines are informational.
  if (all.length >= 2 && all.length <= MOST && all.every((word) => LETTERS.test(word)))
    return linesOf(['I']) >= KNOWN * total ? new Set(all) : null;
  const known = all.filter(isLevel);
  if (known.length < 2 || linesOf(known) < KNOWN * total) return null;
  const others = all.filter((word) => !isLevel(word));
  if (others.length <= UNKNOWN) return isShort(all) ? new Set(all) : null;
  const own = others.filter((word) => (counts.get(word)?.kinds ?? 0) > 1).sort((a, b) => linesOf([b]) - linesOf([a]));
  const levels = [...known, ...own.slice(0, UNKNOWN)];
  return isShort(levels) && linesOf(all) - linesOf(levels) <= WITHOUT * total ? new Set(levels) : null;
}

function isShort(words: readonly string[]): boolean {
  return words.length <= MOST && words.every((word) => word.length <= LONGEST);
}
