/** What a newer browser makes ready for its address bar: twice as much work as all else that its start takes. */
export const ADDRESS_BAR = 'WebUIOmniboxPopup,WebUIOmniboxAimPopup,WebUIOmniboxFullPopup';

/** A process that is kept ready for the next page: one more to start, for nothing. */
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
 * How a browser that only prints is started. Written out here rather than asked of the library that talks to it, so
 * that the browser comes up while that library is still being loaded.
 */
const FLAGS = [
  '--headless=new',
  '--remote-debugging-pipe',
  // Tags and outline of the PDF, and text and colour as on any machine.
  '--export-tagged-pdf',
  '--generate-pdf-document-outline',
  '--force-color-profile=srgb',
  '--hide-scrollbars',
  // Nothing of the network, of the user's, or of the screen.
  '--host-resolver-rules=MAP * ~NOTFOUND',
  '--disable-background-networking',
  '--disable-client-side-phishing-detection',
  '--disable-component-extensions-with-background-pages',
  // Parts that it would otherwise look for and unpack at every start, for its folder is always a new one.
  '--disable-component-update',
  '--disable-default-apps',
  '--disable-extensions',
  '--disable-sync',
  '--disable-search-engine-choice-screen',
  '--disable-infobars',
  '--disable-gpu',
  '--mute-audio',
  // The tab to print in is opened over the pipe; another at the start would be a process for nothing.
  '--no-startup-window',
  '--no-first-run',
  '--no-default-browser-check',
  '--password-store=basic',
  '--use-mock-keychain',
  '--metrics-recording-only',
  '--disable-breakpad',
  '--disable-crash-reporter',
  // No pause for a page that nobody looks at.
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
 * @param folder its own, for what it keeps of a user
 * @param withoutSandbox it refuses to start as root with one
 */
export function browserArguments(folder: string, withoutSandbox: boolean): string[] {
  return [...FLAGS, ...(withoutSandbox ? ['--no-sandbox'] : []), `--user-data-dir=${folder}`];
}
