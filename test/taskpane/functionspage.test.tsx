import { cleanup, render, screen } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { Functions } from '../../taskpane/pages/Functions';

afterEach(cleanup);

it('says the unit of an argument once, also where it is given by another argument', () => {
  const { container } = render(<Functions />);
  expect(screen.getByText('the known length, in the unit given')).toBeTruthy();
  expect(container.textContent).not.toMatch(/\bin in\b/);
});
