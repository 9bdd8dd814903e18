import { takeOver } from './one-tab.ts';

/** What a tab shows while another one has the job open: two that write would spoil each other's work. */
export function Elsewhere({ lost }: { readonly lost: boolean }) {
  return (
    <main className="stopped">
      <h1>{lost ? 'This job went on in another tab' : 'This job is open in another tab'}</h1>
      <p>
        {lost
          ? 'Every step that you finished here was kept and is there now.'
          : 'Go on there, or bring it here. Every step that was finished there is kept.'}
      </p>
      <p>
        <button type="button" onClick={takeOver}>
          Work here instead
        </button>
      </p>
    </main>
  );
}
