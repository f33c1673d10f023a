/**
 * Months in the languages that logs are likely to be in: English, German, Spanish, French, Italian, Portuguese, Dutch,
 * Catalan, Polish and Czech (as they stand alone and after a day), Swedish, Danish and Norwegian.
 */
const NAMES: readonly string[] = [
  'january januar jänner enero janvier gennaio janeiro januari gener ene janv gen stycznia styczeń sty ledna leden led',
  'february februar februari febrero février febbraio fevereiro febrer févr fev lutego luty lut února únor úno',
  'march märz marzo mars março maart març marts mrt mär mrz marca marzec března březen bře',
  'april abril avril aprile abr avr kwietnia kwiecień kwi dubna duben dub',
  'may mai mayo maggio maio mei maig mag maj maja května květen kvě',
  'june juni junio juin giugno junho juny giu czerwca czerwiec cze června červen čer',
  'july juli julio juillet luglio julho juliol juil lug lipca lipiec lip července červenec čvc',
  'august agosto août augustus agost augusti ago sierpnia sierpień sie srpna srpen srp',
  'september septiembre setiembre septembre settembre setembro sept set września wrzesień wrz září zář',
  'october oktober octubre octobre ottobre outubro okt ott out października październik paź října říjen říj',
  'november noviembre novembre novembro listopada listopad lis listopadu',
  'december dezember diciembre décembre dicembre dezembro desembre desember dez dic déc des grudnia ' +
    'grudzień gru prosince prosinec pro',
];

/** The beginnings of these are months of two kinds, or ordinary words. */
const NO_SHORT_FORM: ReadonlySet<string> = new Set(['jui', 'čer']);

const NUMBERS: ReadonlyMap<string, number> = new Map(
  NAMES.flatMap((names, month) =>
    names
      .split(' ')
      .flatMap((name) => [name, withoutMarks(name), Array.from(name).slice(0, 3).join('')])
      .map((name) => [name, month + 1] as const),
  ).filter(([name]) => !NO_SHORT_FORM.has(name)),
);

function withoutMarks(name: string): string {
  return name.normalize('NFD').replace(/\p{M}/gu, '');
}

/**
 * The month (1–12) a name or its three-letter short form stands for, in any case and with or without a final dot; 0
 * when it is none.
 */
export function monthNumber(name: string): number {
  return NUMBERS.get(name.toLowerCase().replace(/\.$/, '')) ?? 0;
}
