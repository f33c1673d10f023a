import type { Random } from '../../../support/generator/random.js';

const ONSETS = 'b br d dr f g gl h k kl l m n p pr r s st t tr v z sch'.split(' ');
const VOWELS = 'a e i o u au ei oa'.split(' ');
const CODAS = 'n r l s t nd rk lm x st m k'.split(' ');
const KANA = 'あいうえおかきくけこさしすせそたちつてとなにのはひふへほまみむめもやゆよらりるれろわ';

/**
 * Puts made-up words in the place of a share of all words, each always by the same one: what is left must tell by
 * itself what a line says. Facts in braces and units stay.
 */
export class MadeUpWords {
  private readonly known = new Map<string, string>();
  private readonly used = new Set<string>();

  /** @param share of the words that are made up, 0 to 1 */
  constructor(
    private readonly random: Random,
    private readonly share: number,
  ) {}

  in(text: string): string {
    return text
      .split(/(\{\w+\})/)
      .map((piece) =>
        piece.startsWith('{')
          ? piece
          : piece.replace(/[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}ー]+|\p{L}{3,}/gu, (word) =>
              this.word(word),
            ),
      )
      .join('');
  }

  private word(word: string): string {
    const key = word.toLowerCase();
    let made = this.known.get(key);
    if (made === undefined) {
      made =
        this.random.next() < this.share
          ? this.invent(/[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}]/u.test(word))
          : word;
      this.known.set(key, made);
    }
    return made;
  }

  private invent(kana: boolean): string {
    const from = (list: readonly string[] | string): string => list[Math.floor(this.random.next() * list.length)] ?? '';
    for (;;) {
      const word = kana
        ? Array.from({ length: 3 }, () => from(KANA)).join('')
        : `${from(ONSETS)}${from(VOWELS)}${from(CODAS)}${this.random.next() < 0.5 ? `${from(ONSETS)}${from(VOWELS)}` : 'o'}`;
      if (this.used.has(word)) continue;
      this.used.add(word);
      return word;
    }
  }
}
