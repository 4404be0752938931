// A mailbox of one between host and page: while the page paints, only the newest scene and plan wait, so there is never a backlog.
import type { ToPage } from '../../messages.ts';

type Of<K extends ToPage['kind']> = Extract<ToPage, { kind: K }>;

export interface Mailbox {
  /** Sends now if the page is free, else keeps the newest of its kind. */
  post(message: ToPage): void;
  /** The page has loaded (again): what was on its way is lost with the page before. */
  ready(): void;
  /** The page says that the last scene or plan is on the screen. */
  painted(): void;
  /** Scenes and plans that wait: 0, 1 or a scene with its plan. */
  readonly waiting: number;
}

/** `send` hands a message to the page. */
export function makeMailbox(send: (message: ToPage) => void): Mailbox {
  let state: 'loading' | 'free' | 'painting' = 'loading';
  let scene: Of<'scene'> | null = null;
  let plan: Of<'plan'> | null = null;
  let caret: Of<'caret'> | null = null;
  /** Waits for a page that is still loading. */
  let nothing: Of<'nothing'> | null = null;

  const next = (): void => {
    if (nothing !== null && state !== 'loading') {
      send(nothing);
      nothing = null;
    }
    if (state !== 'free') return;
    const heavy = scene ?? plan;
    if (heavy !== null) {
      if (heavy === scene) scene = null;
      else plan = null;
      state = 'painting';
      send(heavy);
    }
    // The caret belongs to the newest picture: it waits until nothing else does.
    if (caret !== null && scene === null && plan === null) {
      send(caret);
      caret = null;
    }
  };

  return {
    post(message) {
      switch (message.kind) {
        case 'scene':
          scene = message;
          plan = null;
          nothing = null;
          break;
        case 'plan':
          plan = message;
          break;
        case 'caret':
          caret = message;
          break;
        case 'nothing':
          scene = null;
          plan = null;
          nothing = message;
          break;
        case 'places':
        case 'play':
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
      return Number(scene !== null) + Number(plan !== null);
    },
  };
}
