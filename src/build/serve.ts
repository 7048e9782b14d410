import { basename, dirname } from 'node:path';
import basicSsl from '@vitejs/plugin-basic-ssl';
import { type PreviewServer, preview } from 'vite';
import { headers } from './headers';
import { certificates, site } from './paths';

/** How the site is served. */
export interface Serving {
  readonly folder?: string;
  /** Over https, with a certificate made for it, which no browser trusts by itself; or with one that is given. */
  readonly https?: boolean | Certificate;
  /** For a program at another address, as Excel on the web is: it may read the files, and the port is this one only. */
  readonly isForExcel?: boolean;
  /** Further addresses whose pages may show the pane. */
  readonly framedBy?: readonly string[];
}

/** As text in PEM. */
interface Certificate {
  readonly key: string;
  readonly cert: string;
}

/**
 * Serves the built workbench to this machine only; if the port is taken, the next free one is used.
 * The address is in `resolvedUrls`.
 */
export function serveSite(
  port: number,
  { folder = site, https = false, isForExcel = false, framedBy = [] }: Serving = {},
): Promise<PreviewServer> {
  return preview({
    configFile: false,
    plugins: https === true ? [basicSsl({ certDir: certificates, domains: ['localhost', '127.0.0.1'] })] : [],
    root: dirname(folder),
    appType: 'mpa',
    logLevel: 'warn',
    build: { outDir: basename(folder) },
    preview: {
      // Vite answers only to this machine's own names, so no other site can reach it by a name of its own.
      host: '127.0.0.1',
      port,
      strictPort: isForExcel,
      ...(typeof https === 'object' ? { https } : {}),
      ...(isForExcel ? { cors: true } : {}),
      // As a host of the add-in should; but a browser would then ask every port of this machine over https.
      headers: Object.fromEntries(
        headers(framedBy)
          .filter(({ name }) => name !== 'Strict-Transport-Security')
          .map(({ name, value }) => [name, value]),
      ),
    },
  });
}

/** The workbench's port unless the environment variable PORT says otherwise. */
const PORT = 3210;

/** Throws with the reason if PORT holds no port. */
export function portFromEnvironment(given = process.env.PORT): number {
  const port = Number(given ?? PORT);
  if (Number.isInteger(port) && port > 0 && port <= 65_535) return port;
  throw new Error(`PORT is "${given}"; it should be a whole number from 1 to 65535`);
}
