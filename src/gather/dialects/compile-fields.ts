import { fieldRow, type FieldName } from '../../model/index.js';
import type { FieldRule } from './compiled.js';
import { compileFormula, numberOf } from './formula.js';
import type { FieldValueFile } from './schema.js';
import { compileTemplate } from './template.js';

const YES: ReadonlySet<string> = new Set([
  'true',
  'yes',
  'y',
  'ok',
  '1',
  'success',
  'successful',
  'succeeded',
  'done',
  'good',
  'passed',
  'sí',
  'si',
  'ja',
  'oui',
  'correcto',
  'erfolgreich',
  'réussi',
]);
const NO: ReadonlySet<string> = new Set([
  'false',
  'no',
  'n',
  '0',
  'fail',
  'failed',
  'failure',
  'error',
  'bad',
  'nein',
  'non',
  'fallo',
  'fallido',
  'fehler',
  'échec',
  'erreur',
]);

/**
 * Compiles the dialect's value for a field. Texts are templates, numbers are formulas, and `ok` is true, false or a
 * template that yields a word for one of the two.
 *
 * @throws FormulaError or TemplateError
 */
export function compileField(name: FieldName, value: FieldValueFile, decimalComma: boolean): FieldRule {
  if (typeof value === 'object') {
    const from = compileTemplate(value.from);
    const map = new Map(Object.entries(value.map).map(([key, mapped]) => [key.trim(), mapped]));
    return {
      name,
      names: from.names,
      isAsked: true,
      value: (lookup) => {
        const text = from.fill(lookup)?.trim();
        if (text === undefined) return undefined;
        return converted(name, map.get(text) ?? value.else ?? text, decimalComma);
      },
    };
  }
  if (typeof value === 'string' && fieldRow(name).type === 'number') {
    const formula = compileFormula(value, decimalComma);
    return { name, names: formula.names, isAsked: true, value: (lookup) => formula.evaluate(lookup) };
  }
  if (typeof value === 'string') {
    const template = compileTemplate(value);
    return {
      name,
      names: template.names,
      isAsked: true,
      value: (lookup) => converted(name, template.fill(lookup)?.trim(), decimalComma),
    };
  }
  const constant = converted(name, value, decimalComma);
  return { name, names: new Set(), isAsked: true, value: () => constant };
}

/** The field that a capture of the same name fills. */
export function captureField(name: FieldName, decimalComma: boolean): FieldRule {
  return {
    name,
    names: new Set([name]),
    isAsked: false,
    value: (lookup) => {
      const value = lookup(name);
      return converted(name, typeof value === 'string' ? value.trim() : value, decimalComma);
    },
  };
}

/** The value converted to the field's type; a text that cannot be converted stays a text, for the message. */
function converted(
  name: FieldName,
  value: string | number | boolean | undefined,
  decimalComma: boolean,
): string | number | boolean | undefined {
  if (value === undefined) return undefined;
  switch (fieldRow(name).type) {
    case 'text':
      return String(value);
    case 'boolean': {
      const word = String(value).toLowerCase();
      return YES.has(word) ? true : NO.has(word) ? false : value;
    }
    default: {
      const number = typeof value === 'boolean' ? NaN : numberOf(value, decimalComma);
      return Number.isNaN(number) ? value : number;
    }
  }
}
