import { tokens } from '../design/tokens.js';

/**
 * Colours for charts. The chart library needs real colours, while the page needs variables that follow its theme:
 * charts are drawn in placeholder colours that encode a token and a style, and {@link resolveInks} replaces them with
 * variables and dashes afterwards.
 */
export const INK_STYLES = ['plain', 'bold', 'dashed', 'dotted'] as const;
export type InkStyle = (typeof INK_STYLES)[number];

/** None of our colours begins with this red channel, and no such colour has a shorter spelling or a name. */
const MARK = '5E';

const DASHES: Partial<Record<InkStyle, string>> = { dashed: '6 4', dotted: '1.5 3' };

const hex = (value: number): string => value.toString(16).toUpperCase().padStart(2, '0');

/**
 * The placeholder of a colour token.
 *
 * @param name a colour of `templates/styles/tokens.json`
 * @param style a dash for lines, bold for text
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

/** Replaces every placeholder in an SVG text with its variable, weight or dash. */
export function resolveInks(svg: string): string {
  return svg.replaceAll(STAND_IN, (_whole, attribute: string, style: string, index: string) => {
    const name = tokens().names[Number.parseInt(index, 16)];
    const how = INK_STYLES[Number.parseInt(style, 16)];
    if (name === undefined || how === undefined)
      throw new RangeError(`a chart was drawn in an unknown ink: ${style}${index}`);
    return resolve(attribute, how, name);
  });
}
