/**
 * Months in the likely languages of logs: English, German, Spanish, French, Italian, Portuguese, Dutch, Catalan, Polish
 * and Czech (as they stand alone and after a day), Swedish, Danish and Norwegian.
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

/**
 * The same in Romanian, Turkish, Finnish, Hungarian, Russian, Bulgarian, Ukrainian, Greek, Slovak, Serbian and Slovene.
 */
const FURTHER_NAMES: readonly string[] = [
  'ianuarie ocak tammikuu január январь января януари січень січня ιανουάριος ιανουαρίου januára januara januarja',
  'februarie şubat helmikuu február февраль февраля февруари лютий лютого φεβρουάριος φεβρουαρίου februára ' +
    'februara februarja',
  'martie mart maaliskuu március март марта березень березня μάρτιος μαρτίου marec marca',
  'aprilie nisan huhtikuu április апрель апреля април квітень квітня απρίλιος απριλίου apríl apríla aprila',
  'mayıs toukokuu május май мая травень травня μάιος μαΐου máj mája maja',
  'iunie haziran kesäkuu június июнь июня юни червень червня ιούνιος ιουνίου jún júna juna junija',
  'iulie temmuz heinäkuu július июль июля юли липень липня ιούλιος ιουλίου júl júla jula julija',
  'ağustos elokuu augusztus август августа серпень серпня αύγουστος αυγούστου augusta avgust avgusta',
  'septembrie eylül syyskuu szeptember сентябрь сентября септември вересень вересня σεπτέμβριος σεπτεμβρίου ' +
    'septembar septembra',
  'octombrie ekim lokakuu október октябрь октября октомври жовтень жовтня οκτώβριος οκτωβρίου oktobar oktobra októbra',
  'noiembrie kasım marraskuu november ноябрь ноября ноември листопад листопада νοέμβριος νοεμβρίου novembar novembra',
  'decembrie aralık joulukuu december декабрь декабря декември грудень грудня δεκέμβριος δεκεμβρίου decembar decembra',
];

/** Ambiguous abbreviations, or ordinary words. */
const NO_SHORT_FORM: ReadonlySet<string> = new Set(['jui', 'čer', 'ιού', 'ιου']);
/** Finnish months are identified by the stem before `kuu`: they have no three-letter abbreviation. */
const OF_FINNISH = /kuu$/;
const FINNISH_ENDING = /(?<=kuu)(?:ta|n)$/;

function formsOf(name: string): string[] {
  return [name, withoutMarks(name), ...(OF_FINNISH.test(name) ? [] : [Array.from(name).slice(0, 3).join('')])];
}

function numbersOf(names: readonly string[]): (readonly [string, number])[] {
  return names
    .flatMap((own, month) => own.split(' ').flatMap((name) => formsOf(name).map((form) => [form, month + 1] as const)))
    .filter(([form]) => !NO_SHORT_FORM.has(form));
}

/** A name with two meanings has that of the first language. */
const NUMBERS: ReadonlyMap<string, number> = new Map([...numbersOf(FURTHER_NAMES), ...numbersOf(NAMES)]);

function withoutMarks(name: string): string {
  return name.normalize('NFD').replace(/\p{M}/gu, '');
}

/** Roman numerals stand for months in Polish and Hungarian dates; only in capitals, as lower case letters are words. */
const ROMAN: readonly string[] = ['I', 'II', 'III', 'IV', 'V', 'VI', 'VII', 'VIII', 'IX', 'X', 'XI', 'XII'];

/**
 * The month (1–12) of a name, its three-letter abbreviation, in any case and with or without a final dot, or its Roman
 * numeral; 0 when it is none.
 */
export function monthNumber(name: string): number {
  const plain = name.replace(/\.$/, '');
  return NUMBERS.get(plain.toLowerCase().replace(FINNISH_ENDING, '')) ?? ROMAN.indexOf(plain) + 1;
}
