import { useStore } from 'zustand';
import type { SessionApi } from '../board/session.ts';
import { job } from '../plan/plan.ts';

/** Stands in until the desk and the board are here. */
export function App({ session }: { readonly session: SessionApi }) {
  const name = useStore(session, (s) => job(s.history.plan).name);
  return <main>{name}: the desk and the board are not here yet.</main>;
}
