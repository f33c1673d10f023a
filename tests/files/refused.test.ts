import { expect, it } from 'vitest';
import { refused } from '../../src/files/refused.js';

const failure = (code: string, message: string) => Object.assign(new Error(message), { code });

it.each([
  [failure('EACCES', 'EACCES: permission denied, open'), '(permission denied); check its permissions'],
  [failure('ELOOP', 'ELOOP: too many links, stat'), '(links that form a loop); fix or remove the link'],
  [failure('EIO', 'EIO: i/o error, read'), '(EIO: i/o error); check the disk, or its network'],
  ['odd', '(odd); check the disk, or its network'],
])('what refuses a file is said with what to do: %s', (error, words) => expect(refused(error)).toBe(words));
