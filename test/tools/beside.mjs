// Runs scripts of package.json beside each other and shows what each said when it ends. Ends with an error if one does.
// Usage: node test/tools/beside.mjs types lint
import { spawn } from 'node:child_process';

const npm = process.platform === 'win32' ? 'npm.cmd' : 'npm';

function run(script) {
  const said = [];
  const child = spawn(npm, ['run', script], { stdio: ['ignore', 'pipe', 'pipe'], shell: npm !== 'npm' });
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (part) => said.push(part));
  return new Promise((resolve) => {
    child.once('error', (error) => resolve(error));
    child.once('close', (code) => {
      process.stdout.write(Buffer.concat(said));
      resolve(code === 0 ? undefined : new Error(`npm run ${script} ended with ${code}`));
    });
  });
}

const failed = (await Promise.all(process.argv.slice(2).map(run))).filter((error) => error !== undefined);
for (const { message } of failed) console.error(message);
if (failed.length > 0) process.exitCode = 1;
