export { Board, type BoardProps } from './Board.tsx';
export type { PictureSource } from './canvas/pictures.ts';
export type { MenuRequest } from './canvas/pointers.ts';
export type { LengthAnswer, LengthRequest, StraightenRequest } from './editor.ts';
export { tools } from './tools/index.ts';
export { centreOn, fitPlan, planExtent, zoomBy } from './view.ts';
