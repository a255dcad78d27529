/** What a command is called from: where it prints, what is typed into it. The process itself is `process-terminal.ts`; a test hands in its own. */
export interface Terminal {
  /** to standard output; paint (show/paint.ts) comes off where it would not show */
  readonly print: (text: string) => void;
  /** to standard error */
  readonly warn: (text: string) => void;
  /** width of the output [characters]; undefined when it is a file or a pipe */
  readonly columns: number | undefined;
  /** the output is a screen */
  readonly isScreen: boolean;
  /** what standard error shows can be written over */
  readonly isErrorScreen: boolean;
  /** lines from a file or a pipe, or typed by hand */
  readonly input: NodeJS.ReadableStream;
  /** where a line shows while it is typed by hand; undefined when nobody types */
  readonly typedOn: NodeJS.WritableStream | undefined;
}

/** 0: nothing is at `stop`. 1: something is. 2: a wrong call, or a file that cannot be read. */
export type ExitCode = 0 | 1 | 2;
