import { EXIT } from './failure';
import { main } from './main';
import { serveAsWorker } from './register/worker';

// A reader that has seen enough (head, less) closes the pipe: not an error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code === 'EPIPE') process.exit(EXIT.holds);
  throw error;
});
if (!serveAsWorker()) process.exitCode = await main(process.argv.slice(2));
