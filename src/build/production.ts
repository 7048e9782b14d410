import { build, type InlineConfig } from 'vite';

/** On a busy machine the bundler tells which plugin took long: nothing that the person building can change. */
export const QUIET = { pluginTimings: false };

/**
 * Builds as for use, whoever asks. Vite takes a NODE_ENV that is set, so under a test runner it would build
 * something else than `npm run build` does.
 */
export async function buildForUse(config: InlineConfig): Promise<void> {
  const before = process.env.NODE_ENV;
  process.env.NODE_ENV = 'production';
  try {
    await build({ publicDir: false, ...config, configFile: false, logLevel: 'warn' });
  } finally {
    if (before === undefined) delete process.env.NODE_ENV;
    else process.env.NODE_ENV = before;
  }
}
