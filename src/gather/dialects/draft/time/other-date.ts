/** Words of a line that states the Sun's times, a program's build date, or when a log was exported. */
const OTHER =
  /\b(?:python|java|node(?:js)?|ruby|perl|gcc|clang|msvc|glibc|kernel|linux|windows|debian|ubuntu|driver|sdk|runtime)\b|sun(?:set|rise)|dusk|dawn|moon|twilight|printed|exported|saved on|compil|version|buil[dt]|firmware|release[sd]?\b|copyright|©|\(c\)|licen[cs]e|install|updated|modified|calibrat|library|manufactur|übersetzt|stand vom|kompil|sonnenunter|dämmer|coucher|lever|mise à jour|puesta|ocaso|actualiz|tramonto|alba|aggiorn|západ|wschód|zachód|wersja|verze|日没|日の出|日落|日出|版本|バージョン|编译|編譯/i;
const VERSION = /(?<![\p{L}\d])[vV]\.?\s?\d+\.\d+|(?<![\d.])\d+\.\d+\.\d+(?![\d.:])(?=.*\bbuild\b)/u;

/** Whether a date in a line probably belongs to something other than the night: the program's, or the Sun's. */
export function isOtherDate(text: string): boolean {
  return OTHER.test(text) || VERSION.test(text);
}
