// Loaded into a process before its program: on SIGUSR2 it collects garbage and tells its heap on stderr, in bytes.
process.on('SIGUSR2', () => {
  globalThis.gc();
  process.stderr.write(`heap ${process.memoryUsage().heapUsed}\n`);
});
