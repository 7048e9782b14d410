// @vitest-environment node
import { expect, it } from 'vitest';
import { onceAtATime } from '../../../taskpane/store/onceatatime';

/** Work that ends when told to. */
function work() {
  const ends: ((fails?: boolean) => void)[] = [];
  const run = onceAtATime(
    () =>
      new Promise<void>((resolve, reject) => {
        ends.push((fails = false) => (fails ? reject(new Error('no')) : resolve()));
      }),
  );
  return { run, ends };
}
const soon = () => new Promise((resolve) => setTimeout(resolve));

it('what is asked for meanwhile is done once more, whoever asked', async () => {
  const { run, ends } = work();
  const first = run();
  const [second, third] = [run(), run()];
  expect(third).toBe(second);
  let isDone = false;
  void second.then(() => {
    isDone = true;
  });
  expect(ends).toHaveLength(1);
  ends[0]!();
  await first;
  await soon();
  expect(ends).toHaveLength(2);
  expect(isDone).toBe(false);
  ends[1]!();
  await second;
  void run();
  expect(ends).toHaveLength(3);
});

it('what fails is told to whoever asked, and is done again', async () => {
  const { run, ends } = work();
  const [first, second] = [run(), run()];
  ends[0]!(true);
  await expect(first).rejects.toThrow('no');
  await soon();
  ends[1]!();
  await expect(second).resolves.toBeUndefined();
});

it('work that asks for itself is not begun within itself', async () => {
  const begun: string[] = [];
  const run = onceAtATime(async () => {
    begun.push('begins');
    if (begun.length === 1) void run();
    begun.push('goes on');
  });
  await run();
  await soon();
  expect(begun).toEqual(['begins', 'goes on', 'begins', 'goes on']);
});
