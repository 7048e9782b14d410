import { cleanup, fireEvent, screen } from '@testing-library/preact';
import axe from 'axe-core';
import { afterEach, expect, it } from 'vitest';
import { unfold } from '../unfold';
import { one, openTrace, placeOf } from './audited';

afterEach(cleanup);

it('the step, with a chain, findings and a broken seal, has no violation of WCAG that axe can find', async () => {
  const host = one();
  const store = await openTrace(host);
  fireEvent.input(screen.getByLabelText('Who seals or opens'), { target: { value: 'A. Nobody' } });
  fireEvent.click(screen.getByRole('button', { name: 'Seal this sheet' }));
  await screen.findByText(/^Sealed “/);
  host.put(host.active, 'AmbientReadings', [[3]]);
  host.edit(host.active, () => ({ isProtected: false }));
  fireEvent.click(screen.getByRole('button', { name: 'Compare with its seal' }));
  await screen.findByText('The seal is broken.');
  fireEvent.click(screen.getByRole('button', { name: 'Check this sheet' }));
  await screen.findByRole('list', { name: 'Findings' });
  host.cursor = placeOf(host, 'WhiteLightOutput');
  fireEvent.click(screen.getByRole('button', { name: 'Trace the selected cell' }));
  await screen.findByRole('list', { name: /Chain of/ });
  fireEvent.click(screen.getByRole('button', { name: 'Open all' }));
  await unfold();
  const { violations } = await axe.run(document.body, {
    rules: { 'color-contrast': { enabled: false }, region: { enabled: false } },
  });
  store.stop();
  expect(violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(' ')}`)).toEqual([]);
});
