import { describe, expect, it } from 'vitest';
import { withTrainNames } from '../../../src/log-notes.js';
import type { LogEvent } from '../../../src/model/index.js';

const YAML = 'dialect: 1\nname: x\nlines:\n  - when: a\n';
const of = (...names: string[]): LogEvent[] =>
  names.map((train) => ({ atMs: 0, event: 'exposure-begin', train, source: { file: 'a.log' } }));

describe('a draft of a log that calls the trains otherwise than the rig file', () => {
  it('has a line to fill in before its rules', () => {
    const yaml = withTrainNames(YAML, of('left', 'right', 'left'), ['heron', 'wren']);
    expect(yaml).toContain('# trains: { "left": heron, "right": wren }\n\nlines:\n');
    // A name that both have is not given away.
    expect(withTrainNames(YAML, of('wren', '$&'), ['heron', 'wren'])).toContain('# trains: { "$&": heron }');
  });

  it('is left as it is where the names are the same, or there is no rig file', () => {
    expect(withTrainNames(YAML, of('wren'), ['heron', 'wren'])).toBe(YAML);
    expect(withTrainNames(YAML, of('left'), [])).toBe(YAML);
    expect(withTrainNames(YAML, [], ['heron'])).toBe(YAML);
  });
});
