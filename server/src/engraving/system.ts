// Draws one line of a tune alone, and reads back all that is needed to keep it.
import { type Geometry, geometryOf } from './coordinates.ts';
import { type Handed, readHanded, type SystemPlace, writeHanded } from './handed.ts';
import { inkOf } from './ink.ts';
import { controllerOn, type LibController, type LibLine, type LibTune } from './library.ts';
import { pullIn } from './overhang.ts';
import type { Measure, PictureNode } from './picture.ts';
import { Recorder } from './recorder.ts';
import { keepRoomAbove, roomsFor } from './room.ts';
import { openBrackets } from './tuplets.ts';
import type { StaffInk } from './types.ts';
import { keepWordsApart } from './words.ts';

/** A system as drawn, and what is known of it. */
export interface DrawnSystem {
  readonly picture: PictureNode;
  readonly geometry: Geometry;
  /** x of the right edge of all that is drawn, words included; at least the width asked for. */
  readonly reach: number;
  readonly ink: readonly StaffInk[];
  /** What it hands on to the next system. */
  readonly handed: Handed;
}

export interface SystemOrder {
  readonly line: number;
  readonly handed: Handed;
  readonly place: SystemPlace;
  /** Width of the staff in units. */
  readonly width: number;
  /** Room kept below each staff for its tab, in units. */
  readonly rooms: readonly number[];
  /** Room kept above the notes of each staff for fingers, in units. */
  readonly headrooms: readonly number[];
}

/** A view of the tune in which every other line is empty: indices and the last line's stretch stay right. */
function viewOf(tune: LibTune, order: SystemOrder, onEngraver: () => void): LibTune {
  const { line, place, handed } = order;
  let asked = false;
  return {
    formatting: { ...tune.formatting, ...handed.fonts },
    media: tune.media,
    metaText: place.first && tune.metaText.tempo !== undefined ? { tempo: tune.metaText.tempo } : {},
    metaTextInfo: {},
    lines: tune.lines.map((other, i) => (i === line ? other : {})),
    /** The library asks for the meter right after it has made its engraver, twice: the moment to hand it the state. */
    getMeterFraction: () => {
      if (!asked) onEngraver();
      asked = true;
      return { num: handed.measureLength, den: 1 };
    },
    tablatures: roomsFor(order.rooms),
  };
}

/** What the library keeps of its last drawing would hold the whole parse, and what it keeps of its last parse all that was drawn of it: cut what they reach. */
function cutLoose(controller: LibController, view: LibTune, line: LibLine): void {
  delete line.staffGroup;
  for (const element of line.staff?.flatMap(({ voices }) => voices.flat()) ?? []) delete element.abselem;
  view.lines = [];
  view.tablatures = null;
  view.getMeterFraction = null;
  controller.engraver = null;
  controller.renderer.abctune = null;
}

/** May throw: call it behind the guard. */
export function drawLine(tune: LibTune, order: SystemOrder, measure: Measure): DrawnSystem {
  const line = tune.lines[order.line]!;
  const recorder = new Recorder(measure);
  const controller = controllerOn(recorder, order.width);
  const view = viewOf(tune, order, () => {
    writeHanded(controller.engraver!, order.handed);
    keepWordsApart(controller.engraver!);
  });
  keepRoomAbove(line, order.headrooms);
  controller.engraveABC(view);
  const picture = recorder.svg;
  openBrackets(picture, line.staffGroup!);
  const geometry = geometryOf(line);
  const reach = pullIn(picture, Math.max(geometry.right, order.width));
  const handed = readHanded(controller, view.formatting);
  cutLoose(controller, view, line);
  return { picture, geometry, reach, ink: inkOf(picture, geometry.staffs, geometry.borders, reach), handed };
}
