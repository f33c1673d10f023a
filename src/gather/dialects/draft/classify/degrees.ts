/** How a log writes degrees of temperature, as a unit or as a word: `-5 °C`, `-5 Grad`, `-5 graus`. */
const DEGREES = /^(?:[°º]\s?c?|c|℃|celsius|degc|grad\w*|grau\w*|grá\w*|degr\w*|stopni\w*|stup[nň]\w*|度|도)$/iu;

/** Whether the text behind a number is its unit of temperature. */
export function isDegrees(unit: string): boolean {
  return DEGREES.test(unit);
}
