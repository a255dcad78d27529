/** Names of parts, runs, stock, cells, modes and of what they contain: a letter or digit, then letters, digits, `_` and `-`. */
export const nameRule = /^[\p{L}\p{N}][\p{L}\p{N}_-]*$/u;
export const nameRuleInWords = 'a letter or digit, then letters, digits, _ and -';
