// Loaded into a process before its program: on SIGUSR2 it collects garbage and tells what is in use on stderr, in bytes.
const { setFlagsFromString } = require('node:v8');
const { runInNewContext } = require('node:vm');

setFlagsFromString('--expose-gc');
const collect = runInNewContext('gc');

process.on('SIGUSR2', () => {
  collect();
  // What lies outside the heap is freed a turn later than the objects that held it.
  setImmediate(() => {
    collect();
    const { heapUsed, external, arrayBuffers } = process.memoryUsage();
    process.stderr.write(`memory ${JSON.stringify({ heap: heapUsed, outside: external, arrays: arrayBuffers })}\n`);
  });
});
