import { options } from 'preact';
import { afterAll, vi } from 'vitest';

/* A busy machine may take long to load a page of the pane; nothing is waited for so long where one is not. */
if (typeof document !== 'undefined') {
  const { configure } = await import('@testing-library/preact');
  configure({ asyncUtilTimeout: 20_000 });

  /*
   * What Preact puts off until after the next frame is done before the window of a file goes: left to the library's own
   * clock it came up to 35 ms later, in no window at all, and failed a run in which every test had passed.
   */
  const putOff = new Map<ReturnType<typeof setTimeout>, () => void>();
  options.requestAnimationFrame = (work) => {
    const clock = setTimeout(() => {
      putOff.delete(clock);
      work();
    });
    putOff.set(clock, work);
  };
  afterAll(async () => {
    // A page on its way when its window goes would fail every file after it that asks for that page.
    await vi.dynamicImportSettled();
    for (const [clock, work] of putOff) {
      clearTimeout(clock);
      putOff.delete(clock);
      work();
    }
  });
}
