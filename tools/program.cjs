#!/usr/bin/env node
'use strict';
// The program as it is installed: one file, with what V8 made of it kept beside it, so that it starts in half the time.
// A kept code that does not fit (another Node, another build) is passed over. The build keeps it: HALFSHAFT_KEEP_CODE=1.
// packages that have a quicker form for use than for development
process.env.NODE_ENV ??= 'production';

const { existsSync, readFileSync, writeFileSync } = require('node:fs');
const { dirname, join } = require('node:path');
const { Script } = require('node:vm');

const file = join(__dirname, 'halfshaft.cjs');
const kept = join(__dirname, 'halfshaft.code');
const source = `(function (exports, require, module, __filename, __dirname) {${readFileSync(file, 'utf8')}\n})`;
const cachedData = existsSync(kept) ? readFileSync(kept) : undefined;
const script = new Script(source, cachedData ? { filename: file, cachedData } : { filename: file });
const program = { exports: {} };
script.runInThisContext()(program.exports, require, program, file, dirname(file));
if (process.env.HALFSHAFT_KEEP_CODE === '1') process.on('exit', () => writeFileSync(kept, script.createCachedData()));
