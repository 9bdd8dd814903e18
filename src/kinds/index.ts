import { accessPoint } from './access-point.ts';
import { camera } from './camera.ts';
import { cardTerminal } from './card-terminal.ts';
import type { DeviceKind, KindRegistry } from './kind.ts';
import { kiosk } from './kiosk.ts';
import { kitchenScreen } from './kitchen-screen.ts';
import { menuScreen } from './menu-screen.ts';
import { officePlace } from './office-place.ts';
import { orderStation } from './order-station.ts';
import { phone } from './phone.ts';
import { receiptPrinter } from './receipt-printer.ts';
import { ticketPrinter } from './ticket-printer.ts';
import { timeClock } from './time-clock.ts';

/** Every kind, in the order in which the shelf and the legend list them. */
const all: readonly DeviceKind[] = [
  orderStation,
  kitchenScreen,
  ticketPrinter,
  receiptPrinter,
  kiosk,
  cardTerminal,
  accessPoint,
  camera,
  menuScreen,
  timeClock,
  phone,
  officePlace,
];

export const kinds: KindRegistry = new Map(all.map((kind) => [kind.id, kind]));
