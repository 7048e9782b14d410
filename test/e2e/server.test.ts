import { request } from 'node:http';
import { expect, inject, test } from 'vitest';

const address = new URL(inject('workbench'));

/** The status of a request as it is sent, without a client that tidies the path up. */
function statusOf(path: string, host = address.host): Promise<number | undefined> {
  return new Promise((resolve, reject) => {
    request({ hostname: address.hostname, port: address.port, path, headers: { host } }, (response) => {
      response.resume();
      resolve(response.statusCode);
    })
      .on('error', reject)
      .end();
  });
}

test('the workbench is served to this machine only', () => {
  expect(address.hostname).toBe('127.0.0.1');
});
test('its page, the pane and the list of functions are there', async () => {
  for (const path of ['/', '/pane/taskpane.html', '/pane/functions.json'])
    expect(await statusOf(path)).toBe(200);
});
test.each(['/../package.json', '/..%2f..%2fpackage.json', '/pane/../../../package.json', '/package.json'])(
  'nothing outside of it is served: %s',
  async (path) => {
    expect(await statusOf(path)).toBeGreaterThanOrEqual(400);
  },
);
test('a page of another name that points to this machine gets nothing', async () => {
  expect(await statusOf('/', 'example.org')).toBe(403);
});
