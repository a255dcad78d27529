/** The local server of the workbench: the app, and one build folder. */
import { once } from 'node:events';
import { realpathSync, statSync } from 'node:fs';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { basename, dirname, resolve } from 'node:path';
import { getRequestListener } from '@hono/node-server';
import { appFiles } from './app-files.ts';
import { eventStreams } from './event-stream.ts';
import { watchReadings } from './readings-watch.ts';
import { CannotStart } from './refusal.ts';
import { LONGEST_HELPED } from './study-maker.ts';
import type { StudyMaker } from './study-maker.ts';
import { withSecurityHeaders } from './security-headers.ts';
import { watchBuild } from './watched-build.ts';
import { whyNot } from './why-not.ts';
import { inAddress, isEveryAddress, newToken, ownNames } from './who-may-enter.ts';
import { workbenchRoutes } from './workbench-routes.ts';

export interface ServerOptions {
  /** the build folder, or the build.yaml in it, which need not be there yet */ readonly folder: string;
  /** what vite wrote: index.html and assets */ readonly appFolder: string;
  /** 0 or left out: any that is free */ readonly port?: number | undefined;
  /** left out: 127.0.0.1, this machine only */ readonly host?: string | undefined;
  /** left out: a new one */ readonly token?: string | undefined;
  /** makes the first study of a page that has just been opened; left out: the page makes it itself */ readonly studies?: StudyMaker | undefined;
  /** told in lines what goes wrong while it runs */ readonly log: (line: string) => void;
}

export interface RunningServer {
  /** with the token: opens the workbench in a browser */ readonly address: string;
  readonly port: number;
  /** ends every connection; a save that has begun is finished */ readonly close: () => Promise<void>;
}

/** @throws CannotStart when there is no such folder or the port cannot be had */
export async function startServer({ folder: given, appFolder, port = 0, host = '127.0.0.1', token = newToken(), studies, log }: ServerOptions): Promise<RunningServer> {
  const folder = folderOf(given);
  const build = await watchBuild(folder, log);
  const readings = watchReadings(folder);
  const server = createServer();
  server.listen({ port, host });
  await once(server, 'listening').catch(async (error: NodeJS.ErrnoException) => {
    readings.close();
    await build.close();
    throw new CannotStart(whyNoPort(error, port, host));
  });
  // nothing is awaited from here to the listener: no request can come in between
  const at = (server.address() as AddressInfo).port;
  const events = eventStreams(build, readings);
  const app = appFiles(appFolder);
  const routes = workbenchRoutes({ folder, name: basename(folderAsNamed(given)), build, readings, events, app, studies, names: ownNames(host, at), port: at, token, log });
  const answer = getRequestListener((request, env) => routes.fetch(request, env), {
    overrideGlobalObjects: false,
    errorHandler: () => {
      const refused = new Response('This is no request that the workbench makes.\n', { status: 400, headers: { 'Content-Type': 'text/plain; charset=utf-8' } });
      withSecurityHeaders(refused.headers);
      return refused;
    },
  });
  server.on('request', (incoming, outgoing) => void answer(incoming, outgoing));
  void app.warmUp();
  // a file that cannot be read is told of when it is asked for
  if (studies) build.disk.read().then(({ bytes }) => { if (bytes.length <= LONGEST_HELPED) studies.begin(new TextDecoder().decode(bytes)); }).catch(() => undefined);

  return {
    address: `http://${inAddress(isEveryAddress(host) ? '127.0.0.1' : host)}:${at}/?token=${token}`,
    port: at,
    close: async () => {
      events.close();
      readings.close();
      const closed = once(server, 'close');
      server.close();
      // behind the save that is being written, if there is one
      await build.disk.read().catch(() => undefined);
      server.closeAllConnections();
      await Promise.all([closed, build.close()]);
    },
  };
}

function folderAsNamed(given: string): string {
  const path = resolve(given);
  return basename(path) === 'build.yaml' && !statSync(path, { throwIfNoEntry: false })?.isDirectory() ? dirname(path) : path;
}

function folderOf(given: string): string {
  const folder = folderAsNamed(given);
  try {
    if (!statSync(folder).isDirectory()) throw new CannotStart(`${folder} is no folder. Give a build folder, with a build.yaml in it or still empty.`);
    return realpathSync(folder);
  } catch (error) {
    if (error instanceof CannotStart) throw error;
    throw new CannotStart((error as NodeJS.ErrnoException).code === 'ENOENT' ? `There is no folder ${given}. Make it first, or start a build with: halfshaft new ${given}` : `${folder} cannot be opened: ${whyNot(error)}.`);
  }
}

function whyNoPort({ code, message }: NodeJS.ErrnoException, port: number, host: string): string {
  if (code === 'EADDRINUSE') return `Port ${port} is taken by another program, perhaps by another workbench. Choose another with --port, or leave --port out for any that is free.`;
  if (code === 'EACCES') return `Port ${port} may not be used by you. Choose one from 1024 to 65535, or leave --port out for any that is free.`;
  if (code === 'EADDRNOTAVAIL' || code === 'ENOTFOUND' || code === 'EAI_AGAIN') return `${host} is no address of this machine. Leave --host out to be reached from this machine only.`;
  return `The server cannot listen on ${host}, port ${port}: ${message}.`;
}
