// Where the library draws: out of sight, but in the document, so that texts can be measured.
import type { Studio } from '../../server/src/engraving/index.ts';
import { html, svg } from './dom.ts';

/** A studio whose pictures are groups, freed from the library's own svg and its listeners. */
export function pageStudio(): Studio<SVGGElement> {
  const room = html('div', { class: 'studio', 'aria-hidden': 'true' });
  document.body.append(room);
  return {
    host() {
      const host = html('div');
      room.append(host);
      return host;
    },
    picture(host) {
      const element = host as object as HTMLElement;
      const picture = svg('g', { class: 'engraving', 'aria-hidden': 'true' });
      for (const group of element.querySelectorAll(':scope > svg > :not(style)')) picture.append(group);
      element.remove();
      return picture;
    },
  };
}
