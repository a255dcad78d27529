/** A place in the text of the build file. Lines and columns count from 1, offsets from 0; `end` is the offset after the last character. */
export interface Place { readonly line: number; readonly column: number; readonly offset: number; readonly end: number }
