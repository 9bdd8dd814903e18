/** The name under which browsers' tabs agree on who has the job open. */
const LOCK = 'dropwise-job';
/** How long a tab that is just being shut may take to let go, ms. */
const PATIENCE = 1500;
const FLAG = 'dropwise-take-over';

/**
 * Holds the job for this tab as long as it lives; false while another tab holds it. A browser that cannot say so is
 * taken at its word: the journal itself lets only the tab write that claimed last.
 *
 * @param lost called when another tab has taken the job over
 */
export function holdJob(lost: () => void): Promise<boolean> {
  const { locks } = navigator;
  if (!locks) return Promise.resolve(true);
  const steal = sessionStorage.getItem(FLAG) !== null;
  sessionStorage.removeItem(FLAG);
  const options = steal ? { steal } : { signal: AbortSignal.timeout(PATIENCE) };
  return new Promise((resolve) => {
    let held = false;
    locks
      .request(LOCK, options, () => {
        held = true;
        resolve(true);
        return new Promise<never>(() => undefined);
      })
      .catch(() => (held ? lost() : resolve(false)));
  });
}

/** Takes the job over from the tab that holds it. */
export function takeOver(): void {
  sessionStorage.setItem(FLAG, 'yes');
  location.reload();
}
