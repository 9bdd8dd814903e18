import { t } from '../../text/index.ts';
import { Segments } from '../controls/choices.tsx';
import { Button } from '../controls/parts.tsx';

/** What happens to what is drawn already, when the scale changes. */
export function Follow({ follow, onChange }: { follow: boolean; onChange(on: boolean): void }) {
  return (
    <>
      <Segments
        label={t('follow.label')}
        value={follow ? 'follow' : 'keep'}
        options={[
          { value: 'keep', label: t('follow.keep') },
          { value: 'follow', label: t('follow.follow') },
        ]}
        onChoose={(value) => onChange(value === 'follow')}
      />
      <p className="field-hint">{t(follow ? 'follow.follow-hint' : 'follow.keep-hint')}</p>
    </>
  );
}

/** The end of a dialog about a scale: thinking better of it, or going on. */
export function ScaleFoot({ go, onLeave }: { go: string; onLeave(): void }) {
  return (
    <footer className="dialog-foot">
      <span className="grow" />
      <Button onClick={onLeave}>{t('length.leave')}</Button>
      <Button look="main" type="submit">
        {go}
      </Button>
    </footer>
  );
}
