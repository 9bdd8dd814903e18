import { useEffect } from 'react';
import { renderMessage } from '../base/message.ts';
import type { Notice } from '../board/session.ts';
import { t } from '../text/index.ts';
import { useActions, useSession, useUnits } from './context.tsx';
import { ICONS } from './controls/icons.tsx';
import { IconButton } from './controls/parts.tsx';

/** How long a plain notice stays, ms; a warning stays until it is shut or three newer ones have come. */
const STAYS = 6000;

/** The short messages over the board, read out politely. */
export function Notices() {
  const notices = useSession((s) => s.notices);
  return (
    <div className="notices" role="status" aria-live="polite" aria-label={t('notices.label')}>
      {notices.map((notice) => (
        <NoticeCard key={notice.id} notice={notice} />
      ))}
    </div>
  );
}

function NoticeCard({ notice }: { notice: Notice }) {
  const actions = useActions();
  const units = useUnits();
  useEffect(() => {
    if (notice.tone !== 'plain') return;
    const timer = setTimeout(() => actions.dismiss(notice.id), STAYS);
    return () => clearTimeout(timer);
  }, [notice, actions]);
  return (
    <div className={`notice notice-${notice.tone}`}>
      <p>{renderMessage(notice.message, units)}</p>
      <IconButton label={t('notices.shut')} onClick={() => actions.dismiss(notice.id)}>
        {ICONS.close}
      </IconButton>
    </div>
  );
}
