// Measures texts for the engraving: out of sight, but in the document, since nothing has a size outside of it.
import { type Measure, RecordedText, type TextSize } from '../../server/src/engraving/index.ts';
import { html, svg } from './dom.ts';
import { paintPicture } from './picture.ts';

/** Texts that are remembered: measuring one lays the page out. Syllables and chord symbols come again and again. */
const most = 2000;
/** What decides the size of a text. */
const deciding = ['font-size', 'font-family', 'font-weight', 'font-style'];

/** A measure by the page's own fonts, as they are when a text is first met. */
export function pageMeasure(): Measure {
  const room = svg('svg');
  document.body.append(html('div', { class: 'ruler', 'aria-hidden': 'true' }, room));
  const known = new Map<string, TextSize>();
  const measure: Measure = (said, attributes) => {
    const key = JSON.stringify([said, ...deciding.map((name) => attributes[name])]);
    let size = known.get(key);
    if (size === undefined) {
      const { element } = paintPicture(new RecordedText(said, attributes, measure));
      room.append(element);
      const { width, height } = (element as SVGGraphicsElement).getBBox();
      element.remove();
      size = { width, height };
      if (known.size >= most) known.clear();
      known.set(key, size);
    }
    return size;
  };
  return measure;
}
