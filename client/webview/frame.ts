// Waiting for the screen.

/** Resolves when what stands in the document has been painted; at once while the page is hidden, since it then gets no frames. */
export const painted = (): Promise<void> =>
  new Promise((resolve) => {
    if (document.hidden) {
      resolve();
      return;
    }
    requestAnimationFrame(() => void nextTask().then(resolve));
  });

/** Resolves in a task of its own: input comes first. */
export const nextTask = (): Promise<void> =>
  new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = () => resolve();
    port2.postMessage(null);
  });
