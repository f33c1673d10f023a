import { describe, expect, it } from 'vitest';
import { isAllDone } from '../../src/cli/leave.js';

const WRITTEN = [{ writableLength: 0 }, { writableLength: 0 }];

describe('the end of the process', () => {
  it('comes at once when only outputs are open, whatever they are', () => {
    expect(isAllDone([], WRITTEN)).toBe(true);
    expect(isAllDone(['TTYWrap', 'PipeWrap', 'PipeWrap', 'Immediate'], WRITTEN)).toBe(true);
  });

  it('waits for another process, a file or a timer', () => {
    for (const kind of ['ProcessWrap', 'FSReqPromise', 'FSReqCallback', 'Timeout', 'MessagePort'])
      expect(isAllDone(['PipeWrap', kind], WRITTEN)).toBe(false);
  });

  it('waits for a reader that is slower than the program', () => {
    expect(isAllDone(['PipeWrap'], [{ writableLength: 0 }, { writableLength: 7 }])).toBe(false);
  });
});
