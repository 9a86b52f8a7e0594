import type { FastifyInstance } from 'fastify';
import type { Config } from '../config.ts';
import { StartupFailure } from '../startup-failure.ts';

/**
 * Listens on the configured address.
 * @returns the address to open in a browser
 */
export async function listen(app: FastifyInstance, { host, port }: Pick<Config, 'host' | 'port'>): Promise<string> {
  try {
    await app.listen({ host, port });
  } catch (error) {
    throw explained(error as NodeJS.ErrnoException, host, port);
  }
  const bound = app.server.address();
  const actualPort = bound !== null && typeof bound === 'object' ? bound.port : port;
  return `http://${browserHost(host)}:${actualPort}`;
}

/** "All addresses" is nothing a browser can open. */
function browserHost(host: string): string {
  if (host === '0.0.0.0' || host === '::') return 'localhost';
  return host.includes(':') ? `[${host}]` : host;
}

function explained(error: NodeJS.ErrnoException, host: string, port: number): Error {
  const other = 'set PORT to another one, for example PORT=8081 npm start';
  switch (error.code) {
    case 'EADDRINUSE':
      return new StartupFailure(`Port ${port} on ${host} is in use by another program: stop that one, or ${other}.`);
    case 'EACCES':
      return new StartupFailure(`This user may not listen on port ${port}: ${other}.`);
    case 'EADDRNOTAVAIL':
    case 'ENOTFOUND':
      return new StartupFailure(`HOST is ${host}, which is no address of this machine: use 127.0.0.1 or 0.0.0.0.`);
    default:
      return error;
  }
}
