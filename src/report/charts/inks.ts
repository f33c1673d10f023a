import { tokens } from '../design/tokens.js';

/**
 * Colours for charts. The chart library wants real colours, while the page wants variables that follow its theme:
 * charts are drawn in stand-in colours that encode a token and a style, and {@link resolveInks} puts the variables
 * and dashes in their place afterwards.
 */
export const INK_STYLES = ['plain', 'bold', 'dashed', 'dotted'] as const;
export type InkStyle = (typeof INK_STYLES)[number];

/** No colour of ours begins with this red channel, and no such colour has a shorter spelling or a name. */
const MARK = '5E';

const DASHES: Partial<Record<InkStyle, string>> = { dashed: '6 4', dotted: '1.5 3' };

const hex = (value: number): string => value.toString(16).toUpperCase().padStart(2, '0');

/**
 * The stand-in for a colour token.
 *
 * @param name a colour of `templates/styles/tokens.json`
 * @param style a dash for lines, bold for letters
 * @throws RangeError when no token has that name
 */
export function ink(name: string, style: InkStyle = 'plain'): string {
  const index = tokens().names.indexOf(name);
  if (index < 0) throw new RangeError(`templates/styles/tokens.json has no colour "${name}"`);
  return `#${MARK}${hex(INK_STYLES.indexOf(style))}${hex(index)}`;
}

function resolve(attribute: string, style: InkStyle, name: string): string {
  const variable = `${attribute}="var(--${name})"`;
  switch (style) {
    case 'plain':
      return variable;
    case 'bold':
      return `${variable} font-weight="600"`;
    case 'dashed':
    case 'dotted':
      return attribute === 'stroke' ? `${variable} stroke-dasharray="${DASHES[style] ?? ''}"` : variable;
  }
}

const STAND_IN = new RegExp(`(fill|stroke)="#${MARK}([0-9A-F]{2})([0-9A-F]{2})"`, 'g');

/** Replaces every stand-in of an SVG text by its variable, weight or dash. */
export function resolveInks(svg: string): string {
  return svg.replaceAll(STAND_IN, (_whole, attribute: string, style: string, index: string) => {
    const name = tokens().names[Number.parseInt(index, 16)];
    const how = INK_STYLES[Number.parseInt(style, 16)];
    if (name === undefined || how === undefined)
      throw new RangeError(`a chart was drawn in an unknown ink: ${style}${index}`);
    return resolve(attribute, how, name);
  });
}
