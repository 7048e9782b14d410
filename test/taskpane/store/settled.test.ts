// @vitest-environment node
import { expect, it } from 'vitest';
import { settledSheet } from '../../../taskpane/store/settled';
import { smallest } from '../../audit/sheets';
import type { FakeHost } from '../fakehost';
import { hostWith } from '../trace/audited';

/*
 * Excel may show an old result while its function is asked anew (github.com/OfficeDev/office-js, issue 4152): a seal
 * or a certificate over it would vouch for a number that is not the reading's.
 */

const [SHEET] = smallest().sheets;
const NAME = SHEET!.name;
const AT = SHEET!.names.find(({ name }) => name === 'Agreement')!.refersTo.match(/\$([A-Z]+)\$(\d+)/)!;
const FIRST = `${AT[1]}${AT[2]}`;
const AT_ONCE = { busy: 0, differing: 0, pause: 0 };

function withCell(at: string, value: unknown): FakeHost {
  const host = hostWith(smallest().sheets);
  host.sheets.get(NAME)!.changed.set(at, { value: value as never });
  return host;
}

it('lets a sheet pass whose results agree', async () => {
  await settledSheet(hostWith(smallest().sheets), NAME, AT_ONCE);
});

it.each([
  [
    'a function that has not answered',
    { error: '#BUSY!' },
    'busy',
    /^1 cell of “.*” had no result after 0 seconds: /,
  ],
  [
    'a result that differs from its plain formula',
    'differ',
    'refused',
    /1 result and plain formula differ: see [A-Z]+\d+\. Nothing was done\.$/,
  ],
  [
    'a result that only the plain formula has',
    'plain formula only',
    'refused',
    /1 result of the functions could not be had/,
  ],
])('names %s and lets nothing be done', async (_, value, trouble, message) => {
  await expect(settledSheet(withCell(FIRST, value), NAME, AT_ONCE)).rejects.toMatchObject({
    trouble,
    message: expect.stringMatching(message),
  });
});

it('waits for a function that answers later', async () => {
  const host = withCell(FIRST, { error: '#BUSY!' });
  let looks = 0;
  host.settled = async () => {
    if (++looks === 3) host.sheets.get(NAME)!.changed.clear();
  };
  await settledSheet(host, NAME, { busy: 60_000, differing: 0, pause: 0 });
  expect(looks).toBe(3);
});
