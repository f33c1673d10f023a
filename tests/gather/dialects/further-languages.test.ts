import { describe, expect, it } from 'vitest';
import { FURTHER_LANGUAGES } from '../../../src/gather/dialects/draft/lexicon/further/index.js';
import { plainWords } from '../../../src/gather/dialects/draft/lexicon/plain-words.js';
import { wordList } from '../../../src/gather/dialects/draft/lexicon/word-list.js';
import { wordEvidence } from '../../../src/gather/dialects/draft/lexicon/word-evidence.js';

describe('the words of further languages', () => {
  it('are written as the lexicon reads them', () => {
    for (const words of FURTHER_LANGUAGES)
      for (const [concept, own] of Object.entries(words)) {
        expect(own.trim(), concept).not.toBe('');
        const letters = own.replace(/[^\p{L}]+/gu, ' ').trim();
        expect(plainWords(letters), concept).toBe(letters);
        expect(() => wordList(own)).not.toThrow();
      }
  });
});

/** Plain sentences in each language, no source: knowledge of the languages. */
const SENTENCES: readonly (readonly [wording: string, event: string])[] = [
  ['Exponering # påbörjad, # s', 'exposure-begin'],
  ['Exponeringen avslutad', 'exposure-end'],
  ['Fokusering startar', 'focus-begin'],
  ['Ledstjärnan förlorad', 'star-gap-begin'],
  ['Guidningen pausad', 'guiding-rest-begin'],
  ['Filterbyte klart', 'filter-end'],
  ['Eksponering # begynder', 'exposure-begin'],
  ['Fokuseringen er færdig', 'focus-end'],
  ['Guidning stoppet', 'guiding-end'],
  ['Ledestjernen fundet igen', 'star-gap-end'],
  ['Montering kjører til #', 'slew-begin'],
  ['Valotus # alkoi', 'exposure-begin'],
  ['Valotus päättyi', 'exposure-end'],
  ['Tarkennus valmis', 'focus-end'],
  ['Ohjaus käynnistyi', 'guiding-begin'],
  ['Opastähti kadonnut', 'star-gap-begin'],
  ['Felvétel # elkezdődött', 'exposure-begin'],
  ['élességállítás kész', 'focus-end'],
  ['a vezetés szünetel', 'guiding-rest-begin'],
  ['a vezetőcsillag elveszett', 'star-gap-begin'],
  ['szűrőváltás kész', 'filter-end'],
  ['Έναρξη έκθεσης #', 'exposure-begin'],
  ['Τέλος εστίασης', 'focus-end'],
  ['Η οδήγηση σταμάτησε', 'guiding-end'],
  ['Χάθηκε το άστρο οδηγός', 'star-gap-begin'],
  ['Pozlama # başladı', 'exposure-begin'],
  ['Odaklama tamamlandı', 'focus-end'],
  ['Kılavuz yıldız kayboldu', 'star-gap-begin'],
  ['Filtre değişimi bitti', 'filter-end'],
  ['Начата экспозиция #', 'exposure-begin'],
  ['Экспозиция завершена', 'exposure-end'],
  ['Фокусировка начата', 'focus-begin'],
  ['Гидирование остановлено', 'guiding-end'],
  ['Потеряна звезда гида', 'star-gap-begin'],
  ['Переворот через меридиан завершён', 'flip-end'],
  ['Експозицію # розпочато', 'exposure-begin'],
  ['Фокусування завершено', 'focus-end'],
  ['Гідування призупинено', 'guiding-rest-begin'],
  ['Гідову зірку знайдено', 'star-gap-end'],
  ['Expunerea # a început', 'exposure-begin'],
  ["comença l'exposició #", 'exposure-begin'],
  ['exposició acabada', 'exposure-end'],
  ['comença el guiatge', 'guiding-begin'],
  ['fi del guiatge', 'guiding-end'],
  ['es reprèn el guiatge', 'guiding-rest-end'],
  ['guiatge en pausa', 'guiding-rest-begin'],
  ['estrella de guia perduda', 'star-gap-begin'],
  ['estrella de guia retrobada', 'star-gap-end'],
  ['inici del desplaçament, # px', 'dither-begin'],
  ['fi del desplaçament', 'dither-end'],
  ["s'espera que s'estabilitzi", 'settling-begin'],
  ['gir al meridià acabat', 'flip-end'],
  ['enfocament acabat', 'focus-end'],
  ['canvi de filtre acabat', 'filter-end'],
  ['Focalizare terminată', 'focus-end'],
  ['Ghidajul s-a oprit', 'guiding-end'],
  ['Steaua de ghidare pierdută', 'star-gap-begin'],
  ['Ekspozicija # počela', 'exposure-begin'],
  ['Ekspozicija završena', 'exposure-end'],
  ['Izoštravanje završeno', 'focus-end'],
  ['Zvijezda vodilja izgubljena', 'star-gap-begin'],
];

describe('what a line says in a further language', () => {
  it.each(SENTENCES)('makes of “%s” %s', (wording, event) => {
    const [best] = [...wordEvidence(wording)].sort((a, b) => b[1] - a[1]);
    expect(best?.[0]).toBe(event);
  });
});
