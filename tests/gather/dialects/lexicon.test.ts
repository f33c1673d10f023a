import { describe, expect, it } from 'vitest';
import { CHATTER_WORDS, NEGATION_WORDS } from '../../../src/gather/dialects/draft/lexicon/chatter-words.js';
import { LANGUAGES, type Words } from '../../../src/gather/dialects/draft/lexicon/languages.js';
import { MOTION_WORDS } from '../../../src/gather/dialects/draft/lexicon/motions.js';
import { wordList } from '../../../src/gather/dialects/draft/lexicon/word-list.js';
import { SUBJECT_WORDS } from '../../../src/gather/dialects/draft/lexicon/subject-words.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';

const CONCEPTS: [string, Words][] = [
  ...Object.entries<Words>(SUBJECT_WORDS),
  ...Object.entries<Words>(MOTION_WORDS),
  ...Object.entries<Words>(CHATTER_WORDS),
  ['negation', NEGATION_WORDS],
];

describe('the lexicon', () => {
  it.each(CONCEPTS)('has words for %s in every language, written as it reads them', (_, words) => {
    for (const language of LANGUAGES) {
      const own = words[language];
      expect(own.trim(), language).not.toBe('');
      // Accents are taken off a line's words before they are looked up.
      expect(own.normalize('NFC'), language).not.toMatch(/[\u0300-\u036fàáâãäåçèéêëìíîïñòóôõöùúûüýąćęłńśźżčďěňřšťůž]/);
      expect(() => wordList(own)).not.toThrow();
    }
  });
});

/** The likeliest event of a wording, and of its lead's device. */
function likeliest(wording: string, lead = 0): string | undefined {
  return [...wordEvidence(wording, '', lead)].sort((a, b) => b[1] - a[1])[0]?.[0];
}

describe('what a line says', () => {
  // Plain sentences in each language, no source: knowledge of the languages.
  it.each([
    ['Shutter open, # s', 'exposure-begin'],
    ['Verschluss geschlossen', 'exposure-end'],
    ['obturateur ouvert', 'exposure-begin'],
    ['comincia la messa a fuoco', 'focus-begin'],
    ['empieza el enfoque', 'focus-begin'],
    ['roda de filtros a girar', 'filter-begin'],
    ['montering begint te zwenken', 'slew-begin'],
    ['rozpoczęto uspokajanie', 'settling-begin'],
    ['překlopení dokončeno', 'flip-end'],
    ['ガイド開始', 'guiding-begin'],
    ['居中完成', 'centre-end'],
    ['Off to #', 'slew-begin'],
    ['Schwenk zu #', 'slew-begin'],
    ['exposure # on', 'exposure-begin'],
    ['Aufnahme # an: L', 'exposure-begin'],
    ['Fokus sitzt bei #', 'focus-end'],
    ['Kühlung auf # Grad gestellt', 'cooler'],
    ['guide error within tolerance', 'settling-end'],
    ['passband selection completed', 'filter-end'],
    ['guidage toujours instable au bout de # s, on continue', 'settling-end'],
    ['guida ripristinata', 'guiding-rest-end'],
    ['dejo de guiar', 'guiding-end'],
    ['nudge given', 'dither-end'],
    ['Filter in Ordnung', 'filter-end'],
    ['Das Feld wird um # Pixel versetzt', 'dither-begin'],
    ['Das Feld wurde versetzt', 'dither-end'],
    ['Die Nachführung wurde aufgenommen', 'guiding-begin'],
    ['klaar voor verschuiving', 'dither-ready'],
    ['volgpauze', 'guiding-rest-begin'],
    ['Pause der Nachführung beginnt', 'guiding-rest-begin'],
    ['end of the wait, we continue', 'hold-end'],
    ['Unterbrechung beginnt', 'hold-begin'],
  ])('makes of “%s” %s', (wording, event) => {
    expect(likeliest(wording)).toBe(event);
  });

  it.each([
    'Der nächste Versatz wird nach dieser Belichtung erwartet',
    'still not safe',
    'guide camera connected',
    'Kamera antwortet',
    'montura conectada',
    '导星 相机 连接',
  ])('makes nothing of “%s”: devices come and go, and what is to come has not begun', (wording) =>
    expect(wordEvidence(wording).size).toBe(0),
  );

  it.each([
    ['guide star not found', 'star-gap-begin'],
    ['non vedo più la stella: non trovata', 'star-gap-begin'],
    ['guide star found', 'star-gap-end'],
    ['no guide star', 'star-gap-begin'],
    ['brak gwiazdy prowadzącej', 'star-gap-begin'],
    ['aucune étoile guide', 'star-gap-begin'],
  ])('hears a no: “%s” is %s', (wording, event) => {
    expect(likeliest(wording)).toBe(event);
  });

  it.each([
    ['There now: arrived.', 'slew-end'],
    ['Heron ready', 'dither-ready'],
    ['Cut short halfway, number 41', 'exposure-abort'],
  ])('guesses what is meant where nothing is named: “%s” is %s', (wording, event) => {
    expect(likeliest(wording)).toBe(event);
  });

  it('takes what goes on for what it names: a calm after dithering is no settling that goes on', () => {
    const evidence = wordEvidence('stabile dopo il dithering');
    expect(evidence.get('settling-end') ?? 0).toBeGreaterThan(evidence.get('settling-begin') ?? 0);
  });

  it('goes by the line before the device that wrote it', () => {
    expect(likeliest('guide settled', 'guide '.length)).toBe('settling-end');
    expect(likeliest('guide paused', 'guide '.length)).toBe('guiding-rest-begin');
    expect(likeliest('mount centred', 'mount '.length)).toBe('centre-end');
  });
});

describe('the loss of a star, and a hold', () => {
  it.each([
    ['guide star loss started', 'star-gap-begin'],
    ['guide star loss finished', 'star-gap-end'],
    ['Leitsternverlust beginnt', 'star-gap-begin'],
    ['Leitsternverlust beendet', 'star-gap-end'],
    ['pérdida de estrella', 'star-gap-begin'],
    ['hold (clouds) finished', 'hold-end'],
    ['hold (clouds) started', 'hold-begin'],
    ['clouds: all stop', 'hold-begin'],
  ])('%s tells of %s', (wording, event) => {
    expect(likeliest(wording)).toBe(event);
  });
});

describe('what is calm, and what is framed, in Portuguese and Spanish', () => {
  it.each([
    ['guiagem assentou', 'settling-end'],
    ['enquadramento afinado, começa', 'centre-begin'],
    ['encuadre afinado, terminado', 'centre-end'],
  ])('%s tells of %s', (wording, event) => {
    expect(likeliest(wording)).toBe(event);
  });
});
