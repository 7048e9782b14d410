import { cleanup, fireEvent, screen, waitFor } from '@testing-library/preact';
import { afterEach, expect, it } from 'vitest';
import { textNames } from '../../../src/audit/seal/constant';
import { certificatesOf, withStamps } from '../../../src/audit/seal/stamp';
import { SEAL_SENTENCES } from '../../../src/sheets/certificate/seal';
import type { CellName } from '../../../src/sheets/names/all';
import { certify } from '../../../taskpane/accept/certify';
import type { Store } from '../../../taskpane/store';
import type { FakeHost } from '../fakehost';
import { one, openTrace, placeOf } from './audited';

/* A certificate tells of the seal of the run that it is linked to. */
const stores: Store[] = [];
afterEach(() => {
  cleanup();
  for (const store of stores.splice(0)) store.stop();
});

const press = (name: string) => fireEvent.click(screen.getByRole('button', { name }));
const type = (label: string, value: string) =>
  fireEvent.input(screen.getByLabelText(label), { target: { value } });

/** A run with its certificate; the run in front. */
async function withPaper(): Promise<{ host: FakeHost; run: string; paper: string }> {
  const host = one();
  const run = host.active;
  const { sheet: paper } = await host.build(certify(await host.read(run), 'x', 'paper1'));
  host.active = run;
  stores.push(await openTrace(host));
  type('Who seals or opens', 'A. Nobody');
  return { host, run, paper };
}
const stamp = async (host: FakeHost, paper: string, name: CellName) =>
  (await host.read(paper)).values[name]!.values[0]![0];

it('sealing the run is told on its certificate, and so is opening it', async () => {
  const { host, paper } = await withPaper();
  press('Seal this sheet');
  expect(
    await screen.findByText(new RegExp(`^Sealed “.*”\\. “${paper.replace(/[()]/g, '.')}” says so\\.$`)),
  ).toBeTruthy();
  expect(await stamp(host, paper, 'SealedBy')).toBe('A. Nobody');
  expect(await stamp(host, paper, 'SealedOn')).toMatch(/^\d{4}-\d\d-\d\d \d\d:\d\d:\d\d UTC$/);
  expect(await stamp(host, paper, 'SealHash')).toMatch(/^[0-9a-f]{64}$/);
  expect(await stamp(host, paper, 'SealFound')).toBe('it holds');
  // 1035.022 lm by hand, see the test of chains.
  expect(await stamp(host, paper, 'SealedWhite')).toBeCloseTo(1035.0222222, 6);
  expect(await stamp(host, paper, 'SealedColour')).toBeNull();
  type('Why it is opened', 'Range factor was wrong');
  press('Take the seal off');
  await screen.findByText(/is open again.*says so\.$/);
  for (const name of ['SealedBy', 'SealHash', 'SealFound', 'SealedWhite'] as const)
    expect(await stamp(host, paper, name)).toBeNull();
});

it('comparing changes nothing by itself; what it came to is written when asked', async () => {
  const { host, run, paper } = await withPaper();
  press('Seal this sheet');
  await screen.findByText(/^Sealed “/);
  host.type(run, placeOf(host, 'AmbientReadings').split(':')[0]!, { value: 3, style: { locked: false } });
  host.calls.splice(0);
  press('Compare with its seal');
  await screen.findByText('The seal is broken.');
  expect(host.calls.some((call) => call.startsWith('restore'))).toBe(false);
  expect(await stamp(host, paper, 'SealFound')).toBe('it holds');
  fireEvent.click(await screen.findByRole('button', { name: 'Write this on its certificate' }));
  await waitFor(async () => expect(await stamp(host, paper, 'SealFound')).toBe('IT DOES NOT HOLD'));
});

it('a certificate that is sealed itself stays as it is', async () => {
  const { host, paper } = await withPaper();
  host.edit(paper, ({ names }) => ({ names: [...names, ...textNames('LightSeal', 'light-seal|1|x')] }));
  press('Seal this sheet');
  expect(await screen.findByText(/is sealed itself and stays as it is\.$/)).toBeTruthy();
  expect(host.calls.some((call) => call.startsWith('restore'))).toBe(false);
});

it('a certificate built for a sealed run tells of the seal at once', async () => {
  const host = one();
  const run = host.active;
  stores.push(await openTrace(host));
  type('Who seals or opens', 'A. Nobody');
  press('Seal this sheet');
  await screen.findByText(/^Sealed “/);
  stores[0]!.open('certificate');
  fireEvent.click(
    await screen.findByRole('button', { name: `Certificate of “${run}”` }, { timeout: 20_000 }),
  );
  await screen.findByText(/^Built the sheet “Certificate/);
  expect(await stamp(host, host.active, 'SealedBy')).toBe('A. Nobody');
});

it('in a file the live sentence is written with what it tells of', async () => {
  const { host, run, paper } = await withPaper();
  const book = await host.book();
  expect(certificatesOf(book, run).open.map(({ sheet }) => sheet.name)).toEqual([paper]);
  const after = withStamps(book, run, undefined).sheets.find(({ name }) => name === paper)!;
  expect(Object.values(after.cells).map(({ value }) => value)).toContain(SEAL_SENTENCES.none);
});
