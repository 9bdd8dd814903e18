import type { Id } from '../../base/ids.ts';
import { msg } from '../../base/message.ts';
import { Draft } from '../change.ts';
import { followDevices } from '../outlet-place.ts';
import { type Device, jacksOf, type Ref } from '../plan.ts';
import type { Command } from './command.ts';
import { serveDevice } from './place.ts';
import { nameOf } from './step-words.ts';

/** Makes devices another kind; their places and the labels of their jacks stay, and jacks come and go as it needs. */
export const replaceKind: Command<{ refs: readonly Ref[]; kind: Id }> = (
  plan,
  { refs, kind: id },
  { kinds },
) => {
  const kind = kinds.get(id);
  if (!kind) return { ok: false, why: msg('There is no device kind "{kind}".', { kind: id }) };
  const draft = new Draft(plan);
  const changed: Device[] = [];
  for (const ref of refs) {
    const device = ref.table === 'devices' ? plan.tables.devices.get(ref.id) : undefined;
    if (!device || device.kind === id) continue;
    const host = device.host === null ? undefined : plan.tables.devices.get(device.host);
    const shares = host !== undefined && kind.sharesWith.includes(host.kind);
    draft.patch('devices', device.id, {
      kind: id,
      height: kind.height,
      cord: kind.cord,
      host: shares ? device.host : null,
    });
    changed.push(draft.plan.tables.devices.get(device.id)!);
  }
  if (changed.length === 0)
    return { ok: false, why: msg('Select devices of another kind to replace them.') };
  for (const device of changed)
    if (device.host === null && jacksOf(draft.plan, device).length === 0)
      serveDevice(draft, kind, device);
  followDevices(draft, changed, kinds);
  return {
    ok: true,
    changes: draft.changes(),
    label: msg('Replace {what} by {kind}', {
      what: nameOf(plan, refs),
      kind: kind.label.text.toLowerCase(),
    }),
  };
};
