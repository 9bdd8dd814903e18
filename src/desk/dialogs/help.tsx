import { type Message, renderMessage } from '../../base/message.ts';
import type { Units } from '../../base/units.ts';
import { tools } from '../../board/tools/index.ts';
import type { KindRegistry } from '../../kinds/kind.ts';
import { t } from '../../text/index.ts';
import { keyWords } from '../key-words.ts';
import { Dialog } from './dialog.tsx';

const GENERAL = [
  'undo',
  'redo',
  'save',
  'help',
  'escape',
  'delete',
  'type',
  'way',
  'corner',
  'fine',
  'level',
  'ceiling',
  'snap',
  'under',
  'fit',
  'turn',
  'mirror',
  'lock',
  'copy',
  'repeat',
] as const;

const FINGERS = ['tap', 'drag', 'hand', 'two', 'second', 'stay', 'stay-tool'] as const;

/** Whether fingers may be at work here. */
const hasFingers = (): boolean => matchMedia('(any-pointer: coarse)').matches;

/** The keys, read from the registries that answer to them, and what fingers do where there are some. */
export default function Help({
  kinds,
  units,
  onShut,
}: {
  kinds: KindRegistry;
  units: Units;
  onShut(): void;
}) {
  const toolKeys = [...tools.values()].filter((tool) => tool.key !== '');
  const kindKeys = [...kinds.values()].filter((kind) => kind.key !== '');
  return (
    <Dialog title={t('help.title')} wide onShut={onShut}>
      <div className="help">
        {hasFingers() ? <Fingers /> : null}
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
        <KeyList
          title={t('help.tools')}
          rows={toolKeys.map(({ id, key, label }) => ({ id, key, label }))}
          units={units}
        />
        <KeyList title={t('help.devices')} rows={kindKeys} units={units} />
      </div>
    </Dialog>
  );
}

/** What fingers do on the drawing. */
function Fingers() {
  return (
    <section className="help-fingers">
      <h3>{t('help.fingers')}</h3>
      <dl className="keys">
        {FINGERS.map((finger) => (
          <div key={finger}>
            <dt>{t(`help.finger.${finger}`)}</dt>
            <dd>{t(`help.does.${finger}`)}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}

function KeyList({
  title,
  rows,
  units,
}: {
  title: string;
  rows: readonly { readonly id: string; readonly key: string; readonly label: Message }[];
  units: Units;
}) {
  return (
    <section>
      <h3>{title}</h3>
      <dl className="keys">
        {rows.map((row) => (
          <div key={row.id}>
            <dt>
              <kbd>{keyWords(row.key)}</kbd>
            </dt>
            <dd>{renderMessage(row.label, units)}</dd>
          </div>
        ))}
      </dl>
    </section>
  );
}
