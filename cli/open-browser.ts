import { spawn } from 'node:child_process';

/** What opens an address, by operating system; elsewhere as on Linux. */
const OPENERS: Readonly<Record<string, readonly string[]>> = {
  darwin: ['open'],
  // The empty word is the window's title, which `start` takes first.
  win32: ['cmd', '/c', 'start', ''],
};

/** Opens an address in the browser and does not wait for it. Told once, in words, when that fails. */
export function openBrowser(address: string, failed: (why: string) => void): void {
  const [command, ...args] = OPENERS[process.platform] ?? ['xdg-open'];
  const child = spawn(command!, [...args, address], { detached: true, stdio: 'ignore' });
  child.once('error', () => failed(`${command} could not be started`));
  child.once('exit', (status) => {
    if (status !== 0) failed(`${command} ended with ${status ?? 'a signal'}`);
  });
  child.unref();
}
