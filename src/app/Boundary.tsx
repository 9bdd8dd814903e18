import { Component, type ReactNode } from 'react';
import { t } from '../text/index.ts';

/** Catches what a panel throws while it draws: the job is not lost by it, and can be saved from here. */
export class Boundary extends Component<
  {
    readonly what: 'board' | 'desk';
    readonly onSave: () => Promise<void>;
    readonly children: ReactNode;
  },
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
        <h2>{t(`stopped.${this.props.what}`)}</h2>
        <p>{t('stopped.words')}</p>
        <p className="stopped-reason">{error instanceof Error ? error.message : String(error)}</p>
        <p>
          <button type="button" onClick={() => void this.props.onSave()}>
            {t('stopped.save')}
          </button>{' '}
          <button type="button" onClick={() => this.setState({ error: null, failed: false })}>
            {t('stopped.again')}
          </button>{' '}
          <button type="button" onClick={() => location.reload()}>
            {t('stopped.reload')}
          </button>
        </p>
      </section>
    );
  }
}
