// The bare engraving library in a page, to measure against: the whole tune drawn anew at every change.
import abcjs from 'abcjs';

const host = document.createElement('div');

/** Draws a tune with the library alone. */
(window as unknown as { drawBare(text: string): void }).drawBare = (text) => {
  if (host.parentNode === null) document.body.append(host);
  abcjs.renderAbc(host, text, { add_classes: true });
};
