import type { Plan } from '../plan/plan.ts';
import { rowsBetween } from '../plan/sent-rows.ts';
import type { SurveyPort } from '../ports/ports.ts';
import { type Answer, type Ask, type Lists, NO_LISTS, unpack } from './protocol.ts';

/** What the client needs of a worker. */
export interface Channel {
  post(ask: Ask): void;
  close(): void;
}

/** Opens a channel; answers and the death of the other end are reported to it. */
export type OpenChannel = (
  answered: (answer: Answer) => void,
  died: (reason: string) => void,
) => Channel;

interface Question {
  readonly plan: Plan;
  readonly want: Ask['want'];
  readonly answered: (answer: Answer) => void;
  readonly failed: (error: Error) => void;
  /** Answers it with nothing, since it only matters while no newer one is there; null where it always matters. */
  readonly overtaken: (() => void) | null;
}

/** How long a question may be under way before a newer plan ends it, ms: far more than a survey takes. */
const PATIENCE = 4000;

/**
 * Asks for surveys over a channel: at most one question is under way and one waits, so that a drag is answered as fast
 * as the engines go. A waiting question that a newer one overtakes is answered by null; answers come in order. What
 * lies overhead is asked when no survey waits, and studies of closets last.
 *
 * A question that has been under way for long when a survey of a newer plan waits is dropped, with its other end: a plan
 * on which the engines are at a loss must not hold up the one that mends it.
 *
 * A question whose answer is a failure, or whose other end died, rejects; the next one opens a channel anew.
 */
export function createSurveyClient(open: OpenChannel): SurveyPort {
  let channel: Channel | null = null;
  let known: Plan | null = null;
  let last: Lists = NO_LISTS;
  let asked: Question | null = null;
  let since = 0;
  let waiting: Question | null = null;
  let ceilings: Question | null = null;
  const studies: Question[] = [];
  let id = 0;

  function next(): void {
    if (asked) return;
    if (waiting) {
      asked = waiting;
      waiting = null;
    } else if (ceilings) {
      asked = ceilings;
      ceilings = null;
    } else asked = studies.shift() ?? null;
    if (!asked) return;
    id++;
    since = performance.now();
    channel ??= open(answered, died);
    channel.post({ id, rows: rowsBetween(known, asked.plan), want: asked.want });
    known = asked.plan;
  }

  function answered(answer: Answer): void {
    if (!asked || answer.id !== id)
      throw new Error(`an answer to question ${answer.id}, not ${id}`);
    const question = asked;
    asked = null;
    if ('failed' in answer) question.failed(new Error(answer.failed));
    else question.answered(answer);
    next();
  }

  /** Lets go of the other end, and of what was under way. */
  function end(): Question | null {
    channel?.close();
    channel = null;
    known = null;
    const question = asked;
    asked = null;
    return question;
  }

  function died(reason: string): void {
    end()?.failed(new Error(reason));
    next();
  }

  /** Drops what has been under way for too long while a survey waits, now or when that time is over. */
  function hurry(): void {
    if (!asked || !waiting) return;
    const under = id;
    const left = since + PATIENCE - performance.now();
    if (left > 0) {
      setTimeout(() => {
        if (id === under) hurry();
      }, left);
      return;
    }
    const question = end()!;
    if (question.overtaken) question.overtaken();
    else studies.unshift(question);
    next();
  }

  return {
    survey: (plan) =>
      new Promise((done, failed) => {
        waiting?.overtaken?.();
        const answered = (answer: Answer): void => {
          if (!('survey' in answer)) throw new Error('a survey was asked for');
          const survey = unpack(answer.survey, last);
          last = survey;
          done(survey);
        };
        waiting = { plan, want: 'survey', answered, failed, overtaken: () => done(null) };
        next();
        hurry();
      }),
    closets: (plan) =>
      new Promise((done, failed) => {
        const answered = (answer: Answer): void => {
          if (!('closets' in answer)) throw new Error('closets were asked for');
          done(answer.closets);
        };
        studies.push({ plan, want: 'closets', answered, failed, overtaken: null });
        next();
      }),
    ceilings: (plan) =>
      new Promise((done, failed) => {
        ceilings?.overtaken?.();
        const answered = (answer: Answer): void => {
          if (!('ceilings' in answer)) throw new Error('ceilings were asked for');
          done(answer.ceilings);
        };
        ceilings = { plan, want: 'ceilings', answered, failed, overtaken: () => done(null) };
        next();
      }),
  };
}

/** A channel to a worker of its own. */
export const openWorker: OpenChannel = (answered, died) => {
  const worker = new Worker(new URL('./entry.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', (event: MessageEvent<Answer>) => answered(event.data));
  worker.addEventListener('error', (event) => died(event.message || 'the survey stopped'));
  worker.addEventListener('messageerror', () => died('an answer of the survey could not be read'));
  return { post: (ask) => worker.postMessage(ask), close: () => worker.terminate() };
};
