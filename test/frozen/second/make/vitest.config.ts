import { defineConfig } from 'vitest/config';

/** Runs the makers in their order: files, workbench, record. They need Chromium and LibreOffice. */
export default defineConfig({
  test: {
    include: ['test/frozen/second/make/*.maker.ts'],
    globalSetup: 'test/e2e/server.ts',
    testTimeout: 900_000,
    hookTimeout: 900_000,
    fileParallelism: false,
    expect: { poll: { timeout: 60_000 } },
  },
});
