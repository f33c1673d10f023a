/** Months in the languages that logs are likely to be in: English, German, Spanish, French, Italian, Portuguese, Dutch, Catalan. */
const NAMES: readonly (readonly string[])[] = [
  ['january', 'januar', 'jänner', 'enero', 'janvier', 'gennaio', 'janeiro', 'januari', 'gener', 'ene', 'janv', 'gen'],
  ['february', 'februar', 'febrero', 'février', 'febbraio', 'fevereiro', 'februari', 'febrer', 'févr', 'fev'],
  ['march', 'märz', 'marzo', 'mars', 'março', 'maart', 'març', 'mrt', 'mär', 'mrz'],
  ['april', 'abril', 'avril', 'aprile', 'abr', 'avr'],
  ['may', 'mai', 'mayo', 'maggio', 'maio', 'mei', 'maig', 'mag'],
  ['june', 'juni', 'junio', 'juin', 'giugno', 'junho', 'juny', 'giu'],
  ['july', 'juli', 'julio', 'juillet', 'luglio', 'julho', 'juliol', 'juil', 'lug'],
  ['august', 'agosto', 'août', 'augustus', 'agost', 'ago'],
  ['september', 'septiembre', 'setiembre', 'septembre', 'settembre', 'setembro', 'sept', 'set'],
  ['october', 'oktober', 'octubre', 'octobre', 'ottobre', 'outubro', 'okt', 'ott', 'out'],
  ['november', 'noviembre', 'novembre', 'novembro'],
  ['december', 'dezember', 'diciembre', 'décembre', 'dicembre', 'dezembro', 'desembre', 'dez', 'dic', 'déc', 'des'],
];

const NUMBERS: ReadonlyMap<string, number> = new Map(
  NAMES.flatMap((names, month) =>
    [...names, ...names.map((name) => Array.from(name).slice(0, 3).join(''))].map((name) => [name, month + 1] as const),
  )
    // `jui` would be June as well as July.
    .filter(([name]) => name !== 'jui'),
);

/** The month (1–12) a name or its three-letter short form stands for, in any case and with or without a final dot; 0 when it is none. */
export function monthNumber(name: string): number {
  return NUMBERS.get(name.toLowerCase().replace(/\.$/, '')) ?? 0;
}
