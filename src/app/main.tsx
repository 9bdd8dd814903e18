import { createRoot } from 'react-dom/client';
import { createSession } from '../board/session.ts';
import { kinds } from '../kinds/index.ts';
import { emptyPlan } from '../plan/plan.ts';
import { App } from './App.tsx';
import './fonts.css';
import './app.css';

const session = createSession(kinds, emptyPlan());
createRoot(document.getElementById('root')!).render(<App session={session} />);
