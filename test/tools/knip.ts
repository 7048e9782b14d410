import type { KnipConfig } from 'knip';

/**
 * What has to be reached, and from where: files, exports and dependencies that are not are errors. Two runs, since
 * they see different things. The one with the tests: what nothing at all uses; an export of use in its own file only
 * need be none. The one without them (`--production`): what only tests use, which belongs beside them; that tests
 * look into a file is fine.
 */
export default ({ production = false }: { production?: boolean }): KnipConfig => ({
  // Marked ! is what people run or load. The .mjs files bundle the script they are asked for; with the tests in sight
  // both are found in package.json.
  entry: [
    'taskpane/main.tsx!',
    'taskpane/functions.ts!',
    'taskpane/public/early.js!',
    'taskpane/capture/main.tsx!',
    'taskpane/fields/main.tsx!',
    'taskpane/selfcheck/window.ts!',
    'src/workbench/page/main.ts!',
    'src/workbench/page/host/pageside.ts!',
    'src/workbench/page/numfmtonce.ts!',
    'src/cli/light.ts!',
    ...(production ? ['src/cli/run.mjs!'] : []),
    'src/build/{build,dev,excel,icons,picture,start}.ts!',
    'test/bench/*.bench.ts',
    'test/tools/inturn.ts',
    'test/tools/mutation/vitest.config.ts',
    'test/taskpane/gallery/{components,gallery}.tsx',
  ],
  // How frozen workbooks were made is a record, for the program of its time.
  project: ['src/**!', 'taskpane/**!', 'test/**', '!test/frozen/*/make/**', '*.config.ts'],
  ignoreExportsUsedInFile: production,
  // Copied by path into the workbench (src/build/site.ts).
  ignoreDependencies: ['@microsoft/office-js'],
  ignoreBinaries: ['gcc', 'mkfifo'],
});
