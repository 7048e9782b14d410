import { cleanup, fireEvent, render, screen } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { PerSheet } from '../../taskpane/components/PerSheet';

afterEach(cleanup);

const runs = (count: number) => Array.from({ length: count }, (_, i) => `Run ${i + 1}`);

function element(sheets: readonly string[], asked: string[]) {
  return (
    <PerSheet id="some-run" label="Run" sheets={sheets} onAct={(sheet) => asked.push(sheet)}>
      {(sheet) => `Certificate of “${sheet}”`}
    </PerSheet>
  );
}

it('a few sheets have a button each', () => {
  const asked: string[] = [];
  render(element(runs(5), asked));
  expect(screen.getAllByRole('button')).toHaveLength(5);
  fireEvent.click(screen.getByRole('button', { name: 'Certificate of “Run 4”' }));
  expect(asked).toEqual(['Run 4']);
});

it('of many sheets one is chosen, and the choice survives others that come and go', () => {
  const asked: string[] = [];
  const { rerender } = render(element(runs(60), asked));
  const list = screen.getByRole('combobox', { name: 'Run' });
  expect(screen.getAllByRole('option')).toHaveLength(60);
  fireEvent.change(list, { target: { value: 'Run 43' } });
  rerender(element(runs(61), asked));
  fireEvent.click(screen.getByRole('button', { name: 'Certificate of “Run 43”' }));
  expect(asked).toEqual(['Run 43']);
  // Deleted, it is not asked for by its old name.
  rerender(element(runs(42), asked));
  fireEvent.click(screen.getByRole('button'));
  expect(asked).toEqual(['Run 43', 'Run 1']);
});
