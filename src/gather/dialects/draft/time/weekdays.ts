/** Days of the week, Monday first, in the languages of month-names.ts, in full and abbreviated. */
const NAMES: readonly string[] = [
  'monday mon montag mo lunes lun lundi lunedì segunda-feira segunda seg maandag ma dilluns dl ' +
    'poniedziałek pon pondělí po mandag man måndag mån',

  'tuesday tue tues dienstag di martes mar mardi martedì terça-feira terça ter dinsdag dimarts dt wtorek ' +
    'wt úterý út tirsdag tir tisdag tis',

  'wednesday wed mittwoch mi miércoles mié mercredi mer mercoledì quarta-feira quarta qua woensdag wo ' +
    'dimecres dc środa śr středa st onsdag ons',

  'thursday thu thur thurs donnerstag do jueves jue jeudi jeu giovedì gio quinta-feira quinta qui ' +
    'donderdag dijous dj czwartek czw čtvrtek čt torsdag tor tors',

  'friday fri freitag fr viernes vie vendredi ven venerdì sexta-feira sexta sex vrijdag vr divendres dv ' +
    'piątek pt pátek pá fredag fre',

  'saturday sat samstag sonnabend sa sábado sáb samedi sam sabato sab zaterdag za dissabte ds sobota sob ' +
    'so lørdag lør lördag lör',

  'sunday sun sonntag domingo dom dimanche dim domenica zondag zo diumenge dg niedziela niedz nd ndz ' +
    'neděle ne søndag søn söndag sön',
];
const EASTERN = '[月火水木金土日](?:曜日?)?|(?:星期|周|週|礼拜)[一二三四五六日天]|[월화수목금토일]요일';

const KNOWN: ReadonlySet<string> = new Set(
  NAMES.flatMap((names) => names.split(' ')).flatMap((name) => [name, name.normalize('NFD').replace(/\p{M}/gu, '')]),
);

/** Whether a word is a day of the week, in any case, with or without a final dot. */
export function isWeekday(word: string): boolean {
  return KNOWN.has(word.toLowerCase().replace(/\.$/, '')) || new RegExp(`^(?:${EASTERN})$`, 'u').test(word);
}

const WORD = new RegExp(`${EASTERN}|[\\p{L}][\\p{L}-]*`, 'gu');

/**
 * Literal text next to a date, braces already doubled: days of the week in it become placeholders, since the next night
 * has another.
 */
export function withWeekdays(text: string): string {
  return text.replace(WORD, (word) => (isWeekday(word) ? '{weekday}' : word));
}
