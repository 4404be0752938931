// Which marks we draw ourselves: the library would drop them, misplace them or draw them a second time.

const fingers = ['0', '1', '2', '3', '4', '5', 'thumb'];
const accents = ['accent', '>', 'emphasis'];
const slides = ['slide', 'glissando(', 'glissando)', '~(', '~)'];
const own = new Set([...fingers, ...accents, ...slides, 'open']);

/** `sulG`: a string for one note. */
const stringMark = /^sul[A-G][#b]?\d?$/;
/** `"^sul G"`: a string from here on. */
const stringText = /^sul [A-G][#b]?\d?$/i;

/** Whether we draw a decoration of this name. */
export const isOwnMark = (name: string): boolean => own.has(name) || stringMark.test(name);

/** Whether we draw an annotation of this text. */
export const isStringText = (text: string): boolean => stringText.test(text.trim());

/** One name for each of the marks that have several. */
export function plainName(name: string): string {
  if (accents.includes(name)) return 'accent';
  if (name === '~(') return 'glissando(';
  if (name === '~)') return 'glissando)';
  return name;
}
