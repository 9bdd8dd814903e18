import { t } from '../text/index.ts';
import { useDesk } from './context.tsx';
import { Drop, DropItem } from './controls/drop.tsx';
import { replaceJob } from './dialogs/replace.tsx';

/** Open, save, begin: the few things that one does to a job as a whole. */
export function JobMenu() {
  const { session, services } = useDesk();
  return (
    <Drop face={t('menu.job')}>
      <DropItem onPick={() => replaceJob(session, services, () => services.openFile())}>
        {t('menu.open')}
      </DropItem>
      <DropItem onPick={() => services.saveFile()} keys={t('keys.save')}>
        {t('menu.save')}
      </DropItem>
      <hr />
      <DropItem onPick={() => replaceJob(session, services, () => services.newJob())}>
        {t('menu.new')}
      </DropItem>
      <DropItem
        onPick={() => replaceJob(session, services, () => services.openSample('restaurant'))}
      >
        {t('menu.sample-restaurant')}
      </DropItem>
      <DropItem onPick={() => replaceJob(session, services, () => services.openSample('cafe'))}>
        {t('menu.sample-cafe')}
      </DropItem>
    </Drop>
  );
}
