// A mailbox of one between host and page: while the page paints, only the newest picture waits, so there is never a backlog.
import { planned, type ToPage } from '../../messages.ts';

type Of<K extends ToPage['kind']> = Extract<ToPage, { kind: K }>;

export interface Mailbox {
  /** Sends now if the page is free, else keeps the newest of its kind. A scene that waits takes its plan up. */
  post(message: ToPage): void;
  /** The page has loaded (again): what was on its way is lost with the page before. */
  ready(): void;
  /** The page says that the last scene or plan is on the screen. */
  painted(): void;
  /** Pictures that wait: a scene, or a plan for the one that the page has. */
  readonly waiting: 0 | 1;
}

/** `send` hands a message to the page. */
export function makeMailbox(send: (message: ToPage) => void): Mailbox {
  let state: 'loading' | 'free' | 'painting' = 'loading';
  let picture: Of<'scene' | 'plan'> | null = null;
  let caret: Of<'caret'> | null = null;
  /** Waits for a page that is still loading. */
  let nothing: Of<'nothing'> | null = null;

  const next = (): void => {
    if (nothing !== null && state !== 'loading') {
      send(nothing);
      nothing = null;
    }
    if (state !== 'free') return;
    if (picture !== null) {
      state = 'painting';
      send(picture);
      picture = null;
    }
    // The caret belongs to the newest picture, and follows it.
    if (caret !== null) {
      send(caret);
      caret = null;
    }
  };

  return {
    post(message) {
      switch (message.kind) {
        case 'scene':
          picture = message;
          nothing = null;
          break;
        case 'plan':
          picture = picture?.kind === 'scene' ? { ...picture, scene: planned(picture.scene, message) } : message;
          break;
        case 'caret':
          caret = message;
          break;
        case 'nothing':
          picture = null;
          nothing = message;
          break;
        case 'places':
        case 'play':
        case 'samples':
        case 'practice':
          if (state !== 'loading') send(message);
          break;
      }
      next();
    },
    ready() {
      state = 'free';
      next();
    },
    painted() {
      if (state === 'painting') state = 'free';
      next();
    },
    get waiting() {
      return picture === null ? 0 : 1;
    },
  };
}
