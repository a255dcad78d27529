/** The program: the command line, called in the terminal that this process was started in. */
import { halfshaft } from './halfshaft.ts';
import { processTerminal } from './process-terminal.ts';

// a reader that has seen enough (`| head`) closes the pipe: nothing is wrong
process.stdout.on('error', (error: NodeJS.ErrnoException) => {
  if (error.code !== 'EPIPE') throw error;
  process.exit(0);
});

void halfshaft(process.argv.slice(2), processTerminal(process)).then((code) => { process.exitCode = code; });
