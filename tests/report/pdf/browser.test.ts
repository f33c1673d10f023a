import { describe, expect, it } from 'vitest';
import { BrowserMissing, findBrowser, type Machine } from '../../../src/report/pdf/find-browser.js';
import { printPdfs } from '../../../src/report/pdf/index.js';

function machine(platform: NodeJS.Platform, programs: readonly string[], env: Record<string, string> = {}): Machine {
  return { platform, env, isExecutable: (path) => programs.includes(path) };
}

describe('findBrowser', () => {
  it('takes what the environment names first, our own variable before the other', () => {
    const env = { NIGHTLEDGER_BROWSER: '/opt/a', PUPPETEER_EXECUTABLE_PATH: '/opt/b', PATH: '/usr/bin' };
    expect(findBrowser(machine('linux', ['/opt/a', '/opt/b', '/usr/bin/chromium'], env))).toBe('/opt/a');
    expect(findBrowser(machine('linux', ['/opt/b', '/usr/bin/chromium'], { ...env, NIGHTLEDGER_BROWSER: '' }))).toBe(
      '/opt/b',
    );
  });

  it('does not fall back from a browser that is named and not there', () => {
    const search = (): string =>
      findBrowser(machine('linux', ['/usr/bin/chromium'], { NIGHTLEDGER_BROWSER: '/opt/gone', PATH: '/usr/bin' }));
    expect(search).toThrow(BrowserMissing);
    expect(search).toThrow(/NIGHTLEDGER_BROWSER names "\/opt\/gone"/);
  });

  it.each(['chromium', './chromium', 'bin/chromium', ''])('does not run %j out of the working folder', (named) => {
    const search = (): string => findBrowser(machine('linux', [named], { NIGHTLEDGER_BROWSER: named, PATH: named }));
    expect(search).toThrow(BrowserMissing);
  });

  it.each(['C:chrome.exe', '\\chrome.exe', 'chrome.exe'])('takes %j on Windows for no whole path', (named) => {
    const search = (): string => findBrowser(machine('win32', [named], { NIGHTLEDGER_BROWSER: named }));
    expect(search).toThrow(/give the full path/);
  });

  it('looks along the PATH, by name before folder', () => {
    expect(findBrowser(machine('linux', ['/a/google-chrome', '/b/chromium'], { PATH: '/a:/b' }))).toBe('/b/chromium');
  });

  it('does not look into folders given relative to the working folder', () => {
    expect(() => findBrowser(machine('linux', ['bin/chromium', './chromium'], { PATH: 'bin:.' }))).toThrow(
      BrowserMissing,
    );
  });

  it.each([
    ['linux', '/snap/bin/chromium', {}],
    ['darwin', '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome', {}],
    ['darwin', '/Users/x/Applications/Chromium.app/Contents/MacOS/Chromium', { HOME: '/Users/x' }],
    ['win32', 'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe', { PROGRAMFILES: 'C:\\Program Files' }],
    [
      'win32',
      'C:\\Program Files (x86)\\Microsoft\\Edge\\Application\\msedge.exe',
      { 'PROGRAMFILES(X86)': 'C:\\Program Files (x86)' },
    ],
  ] as const)('knows the usual places of %s: %s', (platform, path, env) => {
    expect(findBrowser(machine(platform, [path], env))).toBe(path);
  });

  it('says what to install when there is none', () => {
    expect(() => findBrowser(machine('linux', []))).toThrow(/apt install chromium.*NIGHTLEDGER_BROWSER/s);
    expect(() => findBrowser(machine('darwin', []))).toThrow(/Chrome or Edge/);
  });
});

describe('printPdfs', () => {
  it('says that no browser is there, and fails nothing', async () => {
    const before = process.env.NIGHTLEDGER_BROWSER;
    process.env.NIGHTLEDGER_BROWSER = '/nowhere/browser';
    const printed = await printPdfs([{ html: () => '<p>', name: 'report.pdf' }], { paper: 'a4' });
    if (before === undefined) delete process.env.NIGHTLEDGER_BROWSER;
    else process.env.NIGHTLEDGER_BROWSER = before;
    expect(printed.pdfs).toEqual([]);
    expect(printed.failures).toHaveLength(1);
    expect(printed.failures[0]).toMatch(/^No PDF was made: .*HTML and JSON are complete\.$/);
  });
});
