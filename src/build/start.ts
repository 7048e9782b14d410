import { portFromEnvironment, serveSite } from './serve';
import { buildSite } from './site';

const port = portFromEnvironment();
console.log('Building the pane and the workbench ...');
await buildSite();
const server = await serveSite(port);
const address = server.resolvedUrls!.local[0]!;
if (!address.includes(`:${port}/`)) console.log(`Port ${port} is taken by another program.`);
console.log(`The workbench is open at ${address} (Ctrl+C ends it)`);
