/** halfshaft open BUILD */
import { existsSync } from 'node:fs';
import { dirname, join, resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import openInBrowser from 'open';
import { CannotStart } from '../../server/refusal.ts';
import { startServer, type RunningServer } from '../../server/start-server.ts';
import { studyOnWorker } from '../study-on-worker.ts';
import type { Terminal } from '../terminal.ts';
import { wholeNumber } from '../whole-number.ts';
import { WrongCall } from '../wrong-call.ts';

interface OpenOptions { readonly port?: string; readonly host?: string; /** false after --no-browser */ readonly browser?: boolean }

/** Serves the workbench on a build folder until Ctrl-C. @param appFolder the built app */
export async function openWorkbench(build: string, options: OpenOptions, { print, warn, isScreen }: Terminal, appFolder = builtApp()): Promise<void> {
  if (build.trim() === '') throw new WrongCall('Name a build folder.');
  if (appFolder === undefined) throw new WrongCall('The workbench is not built yet. Build it with: npm run build');
  const port = options.port === undefined ? 0 : wholeNumber(options.port, '--port', 0, 65_535);
  const server = await startServer({ folder: build, appFolder, port, host: options.host, studies: studyOnWorker(), log: (line) => warn(`${line}\n`) }).catch((error: unknown) => {
    throw error instanceof CannotStart ? new WrongCall(error.message) : error;
  });
  const stopped = untilStopped(server);
  print(`The workbench on ${resolve(build)} is at\n  ${server.address}\nThe address is the key to it: whoever has it can change the build. Stop with Ctrl-C.\n`);
  if (options.host !== undefined && !isThisMachine(options.host)) {
    print(`Other machines on the network can reach it at ${options.host}, port ${server.port}. The connection is not encrypted: use it only on a network of your own.\n`);
  }
  if (options.browser !== false && isScreen && hasDesktop()) {
    const noBrowser = (): void => warn('No browser could be opened; open the address by hand.\n');
    await openInBrowser(server.address).then((child) => void child.on('error', noBrowser), noBrowser);
  }
  await stopped;
}

/** Closes the server at Ctrl-C or when asked to end; a second Ctrl-C ends at once, as without us. */
function untilStopped(server: RunningServer): Promise<void> {
  return new Promise((resolve, reject) => {
    const stop = (): void => {
      process.off('SIGINT', stop).off('SIGTERM', stop);
      server.close().then(resolve, reject);
    };
    process.on('SIGINT', stop).on('SIGTERM', stop);
  });
}

function isThisMachine(host: string): boolean {
  return host === 'localhost' || host === '::1' || host.startsWith('127.');
}

function hasDesktop(): boolean {
  if (process.platform === 'darwin' || process.platform === 'win32') return true;
  return Boolean(process.env['DISPLAY'] || process.env['WAYLAND_DISPLAY']);
}

/** dist/web, from the joined program, from the compiled files or from the sources. */
function builtApp(): string | undefined {
  const here = dirname(fileURLToPath(import.meta.url));
  return ['../web', '../../web', '../../dist/web'].map((way) => join(here, way)).find((folder) => existsSync(join(folder, 'index.html')));
}
