export { Desk } from './Desk.tsx';
export { askLength, type LengthQuestion } from './dialogs/ask-length.tsx';
export { choosePage } from './dialogs/choose-page.tsx';
export { showProgress } from './dialogs/progress.tsx';
export { type MenuQuestion, openMenu } from './menu/open-menu.tsx';
export type { ChoosePage, PageChoice, Services } from './services.ts';
