// Waiting for what an editor does in its own time.

/** Polls until `look` gives something true; throws with `what` after `ms`. */
exports.until = async (what, look, ms = 45_000) => {
  for (const end = Date.now() + ms; Date.now() < end; ) {
    const found = await look();
    if (found) return found;
    await new Promise((done) => setTimeout(done, 50));
  }
  throw new Error(`Waited ${ms} ms for: ${what}`);
};
