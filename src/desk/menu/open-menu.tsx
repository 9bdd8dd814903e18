import { type KeyboardEvent, useEffect, useLayoutEffect, useRef, useState } from 'react';
import type { SessionApi } from '../../board/session.ts';
import { shownPlan } from '../../board/session.ts';
import type { KindRegistry } from '../../kinds/kind.ts';
import { t } from '../../text/index.ts';
import { shutElsewhere } from '../controls/elsewhere.ts';
import { ask } from '../dialogs/dialog.tsx';
import { nameOf } from '../names.ts';
import { type MenuItem, type MenuPlace, menuItems, menuRefs } from './items.ts';
import { besideFinger, type Spot } from './place.ts';

/** A menu that the board asked for: a place of the plan, what lies there, and where that is on the screen. */
export interface MenuQuestion extends MenuPlace {
  readonly clientX: number;
  readonly clientY: number;
}

/** Opens the menu of a place on the board, and does what is picked. */
export async function openMenu(
  session: SessionApi,
  kinds: KindRegistry,
  question: MenuQuestion,
): Promise<void> {
  const state = session.getState();
  const parts = { ...state, plan: shownPlan(state) };
  const refs = menuRefs(parts, question);
  const items = menuItems(parts, kinds, question);
  if (items.length === 0) return;
  if (refs.length > 0) state.actions.select(refs);
  const title =
    refs.length === 0
      ? t('menu.place')
      : refs.length === 1
        ? nameOf(parts.plan, kinds, refs[0]!)
        : t('several.title', { count: refs.length });
  const picked = await ask<MenuItem | null>((answer) => (
    <Menu title={title} items={items} at={question} answer={answer} />
  ));
  picked?.run();
}

function Menu({
  title,
  items,
  at,
  answer,
}: {
  title: string;
  items: readonly MenuItem[];
  at: { readonly clientX: number; readonly clientY: number };
  answer(item: MenuItem | null): void;
}) {
  const box = useRef<HTMLDivElement>(null);
  const [place, setPlace] = useState<Spot>({ left: at.clientX, top: at.clientY });
  useLayoutEffect(() => {
    const size = box.current!.getBoundingClientRect();
    setPlace(besideFinger(at, size, { width: innerWidth, height: innerHeight }));
    buttonsOf(box.current)[0]?.focus();
  }, [at]);
  useEffect(
    () =>
      shutElsewhere(
        () => box.current,
        () => answer(null),
      ),
    [answer],
  );
  // The finger that asked for the menu may lie on it still; to lift it picks nothing.
  const begun = useRef(false);
  const key = (event: KeyboardEvent) => {
    const buttons = buttonsOf(box.current);
    const now = buttons.indexOf(document.activeElement as HTMLElement);
    const to = { ArrowDown: now + 1, ArrowUp: now - 1, Home: 0, End: buttons.length - 1 }[
      event.key
    ];
    if (event.key === 'Escape' || event.key === 'Tab') {
      event.preventDefault();
      answer(null);
    } else if (to !== undefined) {
      event.preventDefault();
      buttons[(to + buttons.length) % buttons.length]?.focus();
    }
  };
  return (
    <div
      ref={box}
      className="menu"
      role="menu"
      tabIndex={-1}
      aria-label={title}
      style={place}
      onKeyDown={key}
      onPointerDown={() => {
        begun.current = true;
      }}
      onContextMenu={(event) => event.preventDefault()}
    >
      <p className="menu-title" aria-hidden="true">
        {title}
      </p>
      {items.map((item, i) => (
        <button
          key={item.label}
          type="button"
          role="menuitem"
          tabIndex={-1}
          className={`menu-item menu-${item.group}${
            i > 0 && items[i - 1]!.group !== item.group ? ' menu-parted' : ''
          }`}
          onClick={(event) => {
            // A click without a count is the keyboard's.
            if (begun.current || event.detail === 0) answer(item);
          }}
        >
          {item.label}
        </button>
      ))}
    </div>
  );
}

const buttonsOf = (box: HTMLElement | null): HTMLElement[] => [
  ...(box?.querySelectorAll<HTMLElement>('[role=menuitem]') ?? []),
];
