import { serveSite } from './serve';
import { buildSite } from './site';

/** The workbench's port unless the environment variable PORT says otherwise. */
const PORT = 3210;

const port = Number(process.env.PORT ?? PORT);
if (!Number.isInteger(port) || port < 1 || port > 65535) {
  throw new Error(`PORT is "${process.env.PORT}"; it should be a whole number from 1 to 65535`);
}
console.log('Building the pane and the workbench ...');
await buildSite();
const server = await serveSite(port);
const address = server.resolvedUrls!.local[0]!;
if (!address.includes(`:${port}/`)) console.log(`Port ${port} is taken by another program.`);
console.log(`The workbench is open at ${address} (Ctrl+C ends it)`);
