import { posix, win32, type PlatformPath } from 'node:path';
import { describe, expect, it } from 'vitest';
import { parseRig } from '../../src/config/index.js';
import { pathMatcher } from '../../src/files/glob.js';
import { sessionPaths } from '../../src/gather/session-paths.js';

function placed(pattern: string, root: string, paths: PlatformPath) {
  const text = [
    'trains:',
    '  - id: heron',
    '    role: pilot',
    '    telescope: { focalLength: 480, aperture: 80 }',
    '    camera: { pixelSize: 3.76 }',
    `    frames: [ '${pattern}' ]`,
    `    logs: [ { files: '${pattern}', dialect: '${pattern}' } ]`,
  ];
  const [train] = sessionPaths(parseRig('rig.yaml', text.join('\r\n')).rig, root, paths).trains;
  expect(train?.logs).toEqual([{ files: train?.frames, dialect: train?.frames[0] }]);
  return train?.frames[0] ?? '';
}

describe('paths of a rig file', () => {
  it.each([
    ['backslashes', 'logs\\heron*.log', 'D:\\nights\\14', 'logs/heron*.log'],
    ['a drive letter', 'D:\\nights\\14\\logs\\*.log', 'D:\\nights\\14', 'logs/*.log'],
    ['another case of it', 'd:\\NIGHTS\\14\\logs\\*.log', 'D:\\nights\\14', 'logs/*.log'],
    ['forward slashes after it', 'D:/nights/14/**/*.fits', 'D:\\nights\\14\\', '**/*.fits'],
    ['a share (UNC)', '\\\\hut\\share\\14\\logs\\*.log', '\\\\hut\\share\\14', 'logs/*.log'],
    ['a share in another case', '\\\\HUT\\Share\\14\\a.log', '\\\\hut\\share\\14', 'a.log'],
  ])('are found below the session folder on Windows with %s', (_, pattern, root, expected) => {
    expect(placed(pattern, root, win32)).toBe(expected);
  });

  it.each([
    ['another drive', 'E:\\logs\\a.log', 'D:\\nights\\14'],
    ['another folder', 'D:\\nights\\14-old\\a.log', 'D:\\nights\\14'],
    ['another share', '\\\\hut\\other\\a.log', '\\\\hut\\share\\14'],
  ])('of %s match no file of the session', (_, pattern, root) => {
    expect(pathMatcher([placed(pattern, root, win32)])('a.log')).toBe(false);
  });

  it('are the same elsewhere', () => {
    expect(placed('/nights/14/logs/*.log', '/nights/14', posix)).toBe('logs/*.log');
    expect(placed('/nights/Other/*.log', '/nights/14', posix)).toBe('/nights/Other/*.log');
    expect(placed('logs\\heron*.log', '/nights/14', posix)).toBe('logs/heron*.log');
  });
});
