/** Newer browsers prepare their address bar: twice as much work as the rest of the start. */
export const ADDRESS_BAR = 'WebUIOmniboxPopup,WebUIOmniboxAimPopup,WebUIOmniboxFullPopup';

/** A spare process for the next page: started in vain. */
export const SPARE_PROCESS = 'SpareRendererForSitePerProcess';

const UNUSED = [
  'Translate',
  'AcceptCHFrame',
  'MediaRouter',
  'OptimizationHints',
  'IsolateSandboxedIframes',
  SPARE_PROCESS,
  ADDRESS_BAR,
] as const;

/**
 * Start options of a print-only browser. Listed here rather than taken from the library that controls it, so that the
 * browser starts while that library is still loading.
 */
const FLAGS = [
  '--headless=new',
  '--remote-debugging-pipe',
  // Tags and outline of the PDF, and the same text and colour on any machine.
  '--export-tagged-pdf',
  '--generate-pdf-document-outline',
  '--force-color-profile=srgb',
  '--hide-scrollbars',
  // No network, user profile or display.
  '--host-resolver-rules=MAP * ~NOTFOUND',
  '--disable-background-networking',
  '--disable-client-side-phishing-detection',
  '--disable-component-extensions-with-background-pages',
  // Components that it would otherwise look for and unpack at every start, since its folder is always new.
  '--disable-component-update',
  '--disable-default-apps',
  '--disable-extensions',
  '--disable-sync',
  '--disable-search-engine-choice-screen',
  '--disable-infobars',
  '--disable-gpu',
  '--mute-audio',
  // The tab for printing is opened over the pipe; another at the start would be an unnecessary process.
  '--no-startup-window',
  '--no-first-run',
  '--no-default-browser-check',
  '--password-store=basic',
  '--use-mock-keychain',
  '--metrics-recording-only',
  '--disable-breakpad',
  '--disable-crash-reporter',
  // No throttling of a page that nobody looks at.
  '--disable-background-timer-throttling',
  '--disable-backgrounding-occluded-windows',
  '--disable-renderer-backgrounding',
  '--disable-hang-monitor',
  '--disable-ipc-flooding-protection',
  '--allow-pre-commit-input',
  '--disable-popup-blocking',
  '--disable-prompt-on-repost',
  '--disable-dev-shm-usage',
  `--disable-features=${UNUSED.join(',')}`,
] as const;

/**
 * The arguments of a browser of the Chromium family.
 *
 * @param folder its own user data folder
 * @param withoutSandbox it refuses to start as root with one
 */
export function browserArguments(folder: string, withoutSandbox: boolean): string[] {
  return [...FLAGS, ...(withoutSandbox ? ['--no-sandbox'] : []), `--user-data-dir=${folder}`];
}
