import { mkdir, mkdtemp, rm, writeFile } from 'node:fs/promises';
import { request } from 'node:https';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { getCertificate } from '@vitejs/plugin-basic-ssl';
import { afterAll, beforeAll, expect, test } from 'vitest';
import { serveSite } from '../../src/build/serve';

/*
 * What `npm run excel` serves, with a certificate made here: Microsoft's tool puts its own into the system's store. That
 * the list of functions must be readable from another address: Office Add-ins documentation on custom functions (CORS).
 */
let folder: string;
let pem: string;
let server: Awaited<ReturnType<typeof serveSite>>;
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), 'excel-'));
  await mkdir(join(folder, 'dist'));
  await writeFile(join(folder, 'dist', 'functions.json'), '{"functions":[]}');
  pem = await getCertificate(join(folder, 'certificate'), 'localhost', ['localhost', '127.0.0.1']);
  server = await serveSite(0, {
    folder: join(folder, 'dist'),
    https: { key: pem, cert: pem },
    isForExcel: true,
  });
});
afterAll(async () => {
  await server?.close();
  await rm(folder, { recursive: true, force: true });
});

test('the list of functions comes over https, readable for Excel on the web', async () => {
  const address = new URL('functions.json', server.resolvedUrls!.local[0]!);
  expect(address.protocol).toBe('https:');
  const found = await new Promise<{ status?: number; origin?: string; text: string }>((resolve, reject) => {
    request(
      address,
      { ca: pem, headers: { origin: 'https://excel.example' }, rejectUnauthorized: false },
      (answer) => {
        let text = '';
        answer.setEncoding('utf8');
        answer.on('data', (part) => {
          text += part;
        });
        answer.on('end', () =>
          resolve({
            status: answer.statusCode,
            origin: answer.headers['access-control-allow-origin'],
            text,
          } as never),
        );
      },
    )
      .on('error', reject)
      .end();
  });
  expect(found).toEqual({ status: 200, origin: '*', text: '{"functions":[]}' });
});
