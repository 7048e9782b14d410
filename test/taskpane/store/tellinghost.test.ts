// @vitest-environment node
import { expect, it } from 'vitest';
import type { Lacking } from '../../../src/excel/host';
import { runPlan } from '../../../src/sheets/run';
import { defaultRunSetup } from '../../../src/sheets/runsetup';
import { createStore } from '../../../taskpane/store';
import { FakeHost } from '../fakehost';

/* A sheet that stands without its charts or page set-up is no failed build; what is missing is said all the same. */

const PLAN = runPlan(defaultRunSetup(), 'a1');
function without(...parts: Lacking['part'][]) {
  const host = new FakeHost();
  const build = host.build.bind(host);
  host.build = async (plan, course) => ({
    ...(await build(plan, course)),
    lacking: parts.map((part) => ({ part, detail: 'GeneralException' })),
  });
  return createStore(host);
}

it('is told where a step builds, in words, with the program’s own for a report', async () => {
  const store = without('page', 'charts');
  const attempt = await store.troubles.attempt('Building', () => store.host.build(PLAN));
  expect(attempt.ok).toBe(true);
  expect(store.troubles.trouble.value).toEqual({
    message: '“Run” was built, but without its page set-up, its charts.',
    remedy:
      'Before printing, fit it to one page across under Page Layout; some programs want a printer for that. The figures of every chart stand on the sheet as a table.',
    detail: 'Run, page: GeneralException\nRun, charts: GeneralException',
  });
});

it('is told of several sheets together, and anew for the next ones', async () => {
  const store = without('notes');
  await store.troubles.attempt('Building', async () => {
    await store.program.build(PLAN);
    await store.program.build({ ...PLAN, title: 'Second' });
  });
  expect(store.troubles.trouble.value?.message).toMatch(/^“Run” was built.* “Second” was built/);
  await store.troubles.attempt('Building', () => store.program.build({ ...PLAN, title: 'Third' }));
  expect(store.troubles.trouble.value?.message).toMatch(/^“Third” was built/);
});

it('is not told where nothing is missing', async () => {
  const store = without();
  await store.troubles.attempt('Building', () => store.host.build(PLAN));
  expect(store.troubles.trouble.value).toBeUndefined();
});
