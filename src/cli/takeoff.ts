import { run } from './command.ts';

// npm starts scripts in the project's folder, whatever folder somebody called it from.
const { npm_lifecycle_event: event, INIT_CWD } = process.env;
const folder = event === 'takeoff' && INIT_CWD ? INIT_CWD : process.cwd();

// A reader that has seen enough, such as `head`, is no fault.
process.stdout.on('error', () => process.exit());

process.exitCode = await run(process.argv.slice(2), {
  folder,
  now: new Date(),
  out: (text) => process.stdout.write(text),
  error: (text) => process.stderr.write(text),
});
