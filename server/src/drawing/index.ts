// What is drawn beside the engraving, as plain shapes.
export type { Density } from './above.ts';
export { type Extent, extentOf } from './extent.ts';
export { drawFindings, type FindingShape } from './findings.ts';
export { type Board, boardHeight, boardOf, boardWidth, drawBoard } from './fingerboard.ts';
export { headroom } from './headroom.ts';
export { tabRoom } from './measures.ts';
export { rhythmRoom } from './rhythm.ts';
export type { Ink, Role, Shape } from './shapes.ts';
export { spokenPlace } from './spoken.ts';
export { drawSystem, type Look, type PlacedTab, placeTabs } from './system.ts';
export { sayingsOf, spokenFinding, voiced } from './voiced.ts';
