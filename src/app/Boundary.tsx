import { Component, type ReactNode } from 'react';

/** Catches what a panel throws while it draws: the job is not lost by it, and can be saved from here. */
export class Boundary extends Component<
  { readonly what: string; readonly onSave: () => Promise<void>; readonly children: ReactNode },
  { readonly error: unknown; readonly failed: boolean }
> {
  override state = { error: null as unknown, failed: false };

  static getDerivedStateFromError(error: unknown) {
    return { error, failed: true };
  }

  override render() {
    if (!this.state.failed) return this.props.children;
    const { error } = this.state;
    return (
      <section className="stopped" role="alert">
        <h2>{this.props.what} stopped</h2>
        <p>Your job is still here. Save it as a file, then try again or reload the page.</p>
        <p className="stopped-reason">{error instanceof Error ? error.message : String(error)}</p>
        <p>
          <button type="button" onClick={() => void this.props.onSave()}>
            Save the job as a file
          </button>{' '}
          <button type="button" onClick={() => this.setState({ error: null, failed: false })}>
            Try again
          </button>{' '}
          <button type="button" onClick={() => location.reload()}>
            Reload the page
          </button>
        </p>
      </section>
    );
  }
}
