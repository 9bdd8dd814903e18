import { renderMessage } from '../../base/message.ts';
import type { Units } from '../../base/units.ts';
import type { KindRegistry } from '../../kinds/kind.ts';
import { t } from '../../text/index.ts';
import { Dialog } from './dialog.tsx';

const GENERAL = ['undo', 'redo', 'save', 'help', 'escape', 'delete', 'type', 'fine'] as const;

/** The keys, read from the registries that answer to them. */
export default function Help({
  kinds,
  units,
  onShut,
}: {
  kinds: KindRegistry;
  units: Units;
  onShut(): void;
}) {
  const kindKeys = [...kinds.values()].filter((kind) => kind.key !== '');
  return (
    <Dialog title={t('help.title')} wide onShut={onShut}>
      <div className="help">
        <section>
          <h3>{t('help.everywhere')}</h3>
          <dl className="keys">
            {GENERAL.map((key) => (
              <div key={key}>
                <dt>
                  <kbd>{t(`help.key.${key}`)}</kbd>
                </dt>
                <dd>{t(`help.says.${key}`)}</dd>
              </div>
            ))}
          </dl>
        </section>
        <section>
          <h3>{t('help.devices')}</h3>
          <dl className="keys">
            {kindKeys.map((kind) => (
              <div key={kind.id}>
                <dt>
                  <kbd>{kind.key.toUpperCase()}</kbd>
                </dt>
                <dd>{renderMessage(kind.label, units)}</dd>
              </div>
            ))}
          </dl>
        </section>
      </div>
    </Dialog>
  );
}
