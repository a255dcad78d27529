/** The command line: its words, and which command each calls. Thin: arguments in, files in, text out; all that is computed is computed in core. */
import { Command, CommanderError, Option } from 'commander';
import type { ExitCode, Terminal } from './terminal.ts';
import { WrongCall } from './wrong-call.ts';

const collect = (value: string, before: string[]): string[] => [...before, value];

/** The options that choose a state, shared by the commands that ask the network. */
function withState(command: Command): Command {
  return command
    .option('--state <mode>', 'the mode the vehicle is in; without it nothing is switched on')
    .option('--set <Part.setting=value>', 'a setting on top of the mode (repeat for more)', collect, [])
    .option('--without <run>', 'a run that is not made yet (repeat for more)', collect, [])
    .option('--failed <Part.failure>', 'something that has failed (repeat for more)', collect, [])
    .option('--charge <percent>', 'state of charge of the cells')
    .option('--cells <temperature>', 'temperature of the cells');
}

/** The options of what draws sheets. */
function withSheetChoices(command: Command): Command {
  return withState(command)
    .addOption(new Option('--units <units>', 'units to print in; without it, those of the build').choices(['metric', 'imperial']))
    .option('--date <date>', 'date for the title blocks');
}

/**
 * Calls one command.
 * @param args  what stands behind the name of the program
 * @returns the code to exit with; what went wrong has been said to the terminal
 */
export async function halfshaft(args: readonly string[], terminal: Terminal): Promise<ExitCode> {
  let code: ExitCode = 0;
  /** What a command returns is the code; one that returns none has nothing that could be at `stop`. */
  const ending = <Given extends readonly unknown[]>(act: (...given: Given) => Promise<ExitCode | void>) => async (...given: Given): Promise<void> => { code = (await act(...given)) ?? 0; };
  const width = (): number => terminal.columns ?? 80;
  const program = new Command('halfshaft')
    .description('What must be true of a converted vehicle, computed from one build file. It computes; meters, inspection and local codes decide.')
    .version('0.1.0')
    .exitOverride()
    .configureOutput({ writeOut: terminal.print, writeErr: terminal.warn, getOutHelpWidth: width, getErrHelpWidth: width, getOutHasColors: () => false, getErrHasColors: () => false })
    .showHelpAfterError();

  program.command('check')
    .description('compute every finding of a build')
    .argument('<build>', 'build folder, or its build.yaml')
    .option('--json', 'print the findings as JSON (docs/json.md)')
    .option('--topic <topic>', 'only this subject: file, pack, high-voltage, low-voltage, mass, modes (repeat for more)', collect, [])
    .option('--draws <number>', 'how many draws of the tolerances give the chances; 0 for none', '0')
    .option('--seed <number>', 'start of the draws; the same seed gives the same chances', '1')
    .option('--workers <number>', 'how many workers share the draws', '2')
    .option('--all', 'list every finding by itself, also what holds')
    .action(ending(async (build: string, options) => (await import('./commands/check.ts')).check(build, options, terminal)));

  program.command('points')
    .description('list every point that a probe can touch')
    .argument('<build>', 'build folder')
    .option('--json', 'as JSON')
    .action(ending(async (build: string, options) => (await import('./commands/points.ts')).points(build, options, terminal)));

  withState(program.command('read')
    .description('what a meter would show between two points')
    .argument('[build]', 'build folder')
    .requiredOption('--between <points...>', 'the two points, such as M1.pos chassis')
    .option('--meter <resistance>', 'resistance of the meter', '10 MΩ')
    .option('--draws <number>', 'draws for the band', '200')
    .option('--seed <number>', 'start of the draws', '1')
    .option('--json', 'as JSON'))
    .action(ending(async (build: string | undefined, options) => (await import('./commands/read.ts')).read(build, options, terminal)));

  program.command('precharge')
    .description('the precharge curve, plotted here or written as CSV')
    .argument('<build>', 'build folder')
    .option('--csv <file>', 'write time, voltage and current to a file; - for standard output')
    .action(ending(async (build: string, options) => (await import('./commands/precharge.ts')).precharge(build, options, terminal)));

  withState(program.command('spice')
    .description('the network in a state, as a netlist for a SPICE engine')
    .argument('<build>', 'build folder'))
    .action(ending(async (build: string, options) => (await import('./commands/spice.ts')).spice(build, options, terminal)));

  withSheetChoices(program.command('sheet')
    .description('a sheet of the drawing set, as SVG: cover, layout, pack, high-voltage, low-voltage, precharge, cables, mass, assembly, power-up, single-failures, fault-finding')
    .argument('<name>', 'name of the sheet')
    .argument('<build>', 'build folder')
    .option('-o, --output <file>', 'file to write; further pages get -2, -3, … at the end of the name; without it, standard output')
    .addOption(new Option('--theme <theme>', 'dark lines on paper, or light lines on blue').choices(['paper', 'blueprint']).default('paper'))
    .option('--case <conversation>', 'of the sheet fault-finding: the conversation of readings.csv to print; without it, the open one that was spoken of last')
    .option('--text', 'the sheet in words instead of a drawing')
    .option('--no-fonts', 'leave the lettering out of the file'))
    .action(ending(async (name: string, build: string, options) => (await import('./commands/sheet.ts')).sheet(name, build, options, terminal)));

  withSheetChoices(program.command('book')
    .description('the whole drawing set as one PDF')
    .argument('<build>', 'build folder')
    .requiredOption('-o, --output <file>', 'file to write')
    .addOption(new Option('--paper <size>', 'A3, or the same at A4').choices(['A3', 'A4']).default('A3')))
    .action(ending(async (build: string, options) => (await import('./commands/book.ts')).book(build, options, terminal)));

  program.command('order')
    .description('the order of the high-voltage joints that keeps the touchable voltage lowest, as a procedure')
    .argument('<build>', 'build folder')
    .option('--own', 'the steps in the order of the file instead of the best one')
    .option('--reverse', 'the order to take it apart')
    .option('--json', 'as JSON (docs/json.md)')
    .action(ending(async (build: string, options) => (await import('./commands/order.ts')).order(build, options, terminal)));

  program.command('power-up')
    .description('the first power-up as a checklist: states, points, meters, predicted readings, hold points')
    .argument('<build>', 'build folder')
    .option('--from <step>', 'start at this step, such as join.H06')
    .option('--draws <number>', 'draws for the bands', '12')
    .option('--seed <number>', 'start of the draws', '1')
    .option('--json', 'as JSON (docs/json.md)')
    .action(ending(async (build: string, options) => (await import('./commands/power-up.ts')).powerUp(build, options, terminal)));

  program.command('fault')
    .description('why it does nothing: what may be wrong, how likely, and what to measure next; asks on in a terminal')
    .argument('<build>', 'build folder')
    .option('--mode <mode>', 'the mode that was asked for; without it, the first that drives')
    .option('--symptom <symptom>', 'what happens instead: no_click, precharge_never_ends, contactors_drop, no_torque, fuse_blows, isolation_warning, battery_dies, pump_always_on, charger_does_not_start (repeat for more)', collect, [])
    .option('--observe <observation>', 'what was seen: K1.coil_a-chassis=0.2 V, F1.a-F1.b=open, K1.closes=no (repeat for more)', collect, [])
    .option('--keep', 'write what was seen into readings.csv; so it is when it asks on or goes on with a conversation')
    .option('--no-keep', 'write nothing, only try')
    .option('--resume [conversation]', 'go on with a conversation of readings.csv; without a name, the open one that was spoken of last')
    .option('--take-back <line>', 'with --resume: take back something said, by the id of its line, or last')
    .option('--end [note]', 'end the conversation, with what came of it')
    .option('--cases', 'list the conversations in readings.csv')
    .option('--who <name>', 'who looks; without it, who is logged in')
    .option('--ask', 'ask on though the input is no terminal: an answer a line')
    .option('--json', 'as JSON')
    .action(ending(async (build: string, options) => (await import('./commands/fault.ts')).fault(build, options, terminal)));

  program.command('failures')
    .description('what every single failure does in every mode, what tells the driver, and whether one more would be dangerous')
    .argument('<build>', 'build folder')
    .option('--mode <mode>', 'only what happens in this mode')
    .option('--severity <severity>', 'only these: danger, hidden, guard, stops, less, nothing')
    .addOption(new Option('--told <answer>', 'only those that something tells the driver of, or that nothing does').choices(['yes', 'no']))
    .option('--about <name>', 'only those of this part or run')
    .option('--words <words>', 'only those with all of these words')
    .option('--json', 'as JSON (docs/json.md)')
    .action(ending(async (build: string, options) => (await import('./commands/failures.ts')).failures(build, options, terminal)));

  program.command('reading')
    .description('what a meter showed: judged against the prediction, and written into readings.csv; or all that was written')
    .argument('<build>', 'build folder')
    // a reading may begin with a minus; what is no reading is refused by the command
    .allowUnknownOption()
    .argument('[step-and-value...]', 'step and reading in short: assembly.H02.before "0.9 V"')
    .option('--step <step>', 'step that it belongs to: join.H06 of the power-up, assembly.H06.before of the assembly')
    .option('--between <points...>', 'instead of a step: the two points, the red lead first')
    .option('--mode <mode>', 'with --between: the mode the vehicle is in')
    .option('--value <reading>', 'what the meter shows, with its unit: "12.4 V", "> 550 MΩ"')
    .option('--seen <answer>', 'yes or no, where a step asks for what is seen or heard')
    .option('--who <name>', 'who read it; without it, who is logged in')
    .option('--with <instrument>', 'which meter; without it, the one that the step asks for')
    .option('--note <text>', 'anything else worth keeping')
    .option('--corrects <id>', 'the reading in the log that this one replaces')
    .option('--proposals', 'list better numbers for the build file, from the readings that agree; nothing is changed')
    .option('--apply <number>', 'write one of those into the build file')
    .option('--list', 'print the log, and where the power-up goes on')
    .option('--json', 'as JSON')
    .action(ending(async (build: string, stepAndValue: string[], options) => (await import('./commands/reading.ts')).reading(build, stepAndValue, options, terminal)));

  program.command('open')
    .description('open the workbench on a build folder, in the browser')
    .argument('<build>', 'build folder; an empty one starts with questions')
    .option('--port <number>', 'port to listen on; without it, a free one')
    .option('--host <name>', 'address to listen on; without it, only this machine can reach it')
    .option('--no-browser', 'print the address and open nothing')
    .action(ending(async (build: string, options) => (await import('./commands/open.ts')).openWorkbench(build, options, terminal)));

  program.command('schema')
    .description('the JSON Schema of the build file')
    .action(ending(async () => (await import('./commands/schema.ts')).schema(terminal)));

  program.command('explain')
    .description('a finding in full: what must be true, formula, source, what to do')
    .argument('[code]', 'code of the finding; without it, all codes')
    .action(ending(async (code: string | undefined) => (await import('./commands/explain.ts')).explain(code, terminal)));

  program.command('new')
    .description('write a commented starter file into a new build folder')
    .argument('<folder>', 'folder to make')
    .addOption(new Option('--units <units>', 'units to start with').choices(['metric', 'imperial']).default('metric'))
    .action(ending(async (folder: string, options) => (await import('./commands/new.ts')).newBuild(folder, options, terminal)));

  try {
    await program.parseAsync(args, { from: 'user' });
    return code;
  } catch (error) {
    // commander has printed its own message
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    if (!(error instanceof WrongCall)) throw error;
    terminal.warn(`${error.message}\n`);
    return 2;
  }
}
