import { expect, test } from 'vitest';
import { Calculation } from '../../src/workbench/engine/calculation';

const WRITE = 'sheet.mutation.insert-row';
const START = 'formula.mutation.set-formula-calculation-start';
const DONE = 3;

/** The engine, as far as a calculation listens to it. */
function engineStub() {
  let command: (command: { id: string }) => void = () => {};
  let end: (state: number) => void = () => {};
  const calculation = new Calculation({
    onCommandExecuted: (listener: typeof command) => {
      command = listener;
    },
    getFormula: () => ({
      calculationEnd: (listener: typeof end) => {
        end = listener;
      },
    }),
  } as never);
  return {
    calculation,
    write: () => command({ id: WRITE }),
    begin: () => command({ id: START }),
    end: () => end(DONE),
  };
}

test('a batch waits for what was written before it, and not for a person who types on', async () => {
  const { calculation, write, begin, end } = engineStub();
  write();
  let isSettled = false;
  const settled = calculation.settled().then(() => {
    isSettled = true;
  });
  begin();
  // Typed while the first is calculated: that is another calculation.
  write();
  end();
  await settled;
  expect(isSettled).toBe(true);
  expect(calculation.isPending).toBe(true);
  begin();
  end();
  await calculation.settled();
  expect(calculation.isPending).toBe(false);
});

test('a calculation that began before the write does not settle it', async () => {
  const { calculation, write, begin, end } = engineStub();
  write();
  begin();
  write();
  let isSettled = false;
  const settled = calculation.settled().then(() => {
    isSettled = true;
  });
  end();
  await new Promise((resolve) => setImmediate(resolve));
  expect(isSettled).toBe(false);
  begin();
  end();
  await settled;
});
