import { msg } from '../../../src/base/message.ts';
import type { DeviceKind, KindRegistry } from '../../../src/kinds/kind.ts';

const station: DeviceKind = {
  id: 'station',
  code: 'OS',
  label: msg('Order station'),
  hint: msg('takes orders'),
  mount: 'wall',
  height: 1000,
  outletHeight: 1000,
  jacks: 1,
  cord: 2134,
  sharesWith: [],
  power: 'receptacle',
  network: 'payment',
  footprint: { width: 400, depth: 400 },
  usualIn: [],
  key: '',
  symbol: [],
};

/** Three kinds that between them have every property that rules and take-off ask for. */
export const testKinds: KindRegistry = new Map(
  [
    station,
    { ...station, id: 'printer', code: 'RP', label: msg('Printer'), sharesWith: ['station'] },
    {
      ...station,
      id: 'access-point',
      code: 'AP',
      label: msg('Access point'),
      mount: 'ceiling' as const,
      power: 'data cable' as const,
      network: 'staff' as const,
    },
    { ...station, id: 'handheld', label: msg('Handheld'), jacks: 0 },
  ].map((kind) => [kind.id, kind]),
);
